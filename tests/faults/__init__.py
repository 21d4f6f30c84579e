"""The campaign of faults: inputs that are damaged, odd or hostile, and kills, by the thousand."""
