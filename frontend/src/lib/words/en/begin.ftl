# The library, and beginning a rope.
library-title = Your ropes
library-new = Begin a rope
library-search = Search titles, braids, beads and notes
library-found =
    { $count ->
        [one] One rope
       *[other] { $count } ropes
    }
library-welcome = There is no rope here yet. Begin one of your own, or open a demo and change it: everything you do is kept, and every step can be taken back.
library-demos = Demos to begin with
library-begin-demo = Begin with { $title }
library-take-in = Take in files
library-save-all = Save the whole library
library-own-braid = Enter a braid of your own
library-thrown = { $title } was thrown away.
library-take-back = Take it back
library-copy-title = { $title }, a copy
library-came = { $title } is in your library now.
library-came-many =
    { $count ->
        [0] No rope came in.
        [one] One rope came in.
       *[other] { $count } ropes came in.
    }
library-gone =
    { $count ->
        [one] One rope thrown away
       *[other] { $count } ropes thrown away
    }
library-rename = Rename
library-rename-do = Take the title
card-no-picture = No picture yet
card-when = changed { $when }
card-more = More for { $title }
card-more-short = More
card-copy = Duplicate
card-file = Save as a file
card-throw = Throw away
new-title = Begin a rope
new-name = What is it called
new-name-given = New rope
new-braid = Braid
new-hand = Hand
new-hand-S = S: the stitch line leans like the middle of the letter S
new-hand-Z = Z: the stitch line leans like the middle of the letter Z
new-bead = First bead
new-bead-none = none: a rope of bare cord
new-colour = Its colour
new-size = How long
new-size-wrist_mm = for a wrist of
new-size-length_mm = finished length
new-size-rows = rows
new-size-wrong = Give how long it is to be as a number above 0, such as 160 for a wrist in mm.
new-do = Begin
new-pause = Hold the pictures still
disk-picture = { $name }: how the cords move on the disk
