"""Preview: one topic's page, made anew in this process at every save."""
