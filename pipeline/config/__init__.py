"""Reading, checking and handing out the configuration."""
