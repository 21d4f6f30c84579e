"""Archive: editions of a brief, sealed so that each can be checked and made again years later."""
