"""How a line of corrections.csv is written, for config/README.md."""

from __future__ import annotations

CORRECTIONS = """## corrections.csv

The file that `corrections` of project.yaml names: a line a fix. `old` must be what the data say, or
the line is an error; `reason`, `source`, `by` and `date` are needed. Which columns are filled says
what is mended:

| places filled | fields |
| --- | --- |
| match, innings, over, delivery | a part of a delivery, or `delivery` for the whole of it |
| the same, and player_out | `dismissal` or `player_out_id` of one of several dismissals on it |
| match, innings | targets and penalty runs of an innings |
| match; player; venue | what is known of a match, a player, a ground |

- **Put a delivery in**: field `delivery`, `old` blank, `new` the whole of it, such as
  `batter_id=a1; non_striker_id=a2; bowler_id=b7; runs_batter=1`. What is left out is nought;
  `dismissal=caught; player_out_id=a1` may follow, more than once. It stands before the delivery
  that the data give this number, or at the over's end (one more than the over has); several at one
  number stand in the order of their lines. An over that is lacking begins with its delivery 1.
- **Take a delivery out**: field `delivery`, `old` the whole of it in the same form, `new` blank.
- **Numbers are those of the data**, in every line: what is put in or taken out moves no other
  line's place. When all lines are done the over is numbered from 1 without gaps; its dismissals go
  with their deliveries, and overs, innings and batting positions are counted anew.
- **One of several dismissals**: player_out names it by who was out in the data. A blank `new` takes
  the dismissal away; a player who was not out there, with `old` blank, adds one.
- **The gender of a match** decides, as it is corrected, who of one name and side is whom where the
  data give no ids: a gender put right gives the ids that right data would have given. Lines are
  done one after the other, so one may mend what an earlier one gave.
- What the data do not have is told by its part: no such match, innings, over or delivery, and the
  nearest that there is.

## people.csv

The file that `people` of project.yaml names: a line for each id that is another's person. `id` is
somebody in the data; `same_as`, the id to keep, is somebody in the data or a line of the players'
sheet; `reason` is needed. A line or more may lead on from there (a to b, b to c): all are c then,
in whatever order the lines stand. Nobody, oneself, and a circle are errors with their lines. Of a
name that is a woman's and a man's, `same_as` means the one of the match's gender; `id` means
neither of them, but who is of no known gender: write "A Bowler (Quillport, male)" for one.
"""
