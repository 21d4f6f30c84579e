"""The episode: which lines are said, in what order and in which form, with what each is of."""
