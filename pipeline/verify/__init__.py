"""Verify: is an archived edition whole, to the byte, wherever its folder is now."""
