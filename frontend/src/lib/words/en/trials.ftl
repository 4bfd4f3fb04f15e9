# What is tried before it is taken: a braid of one's own, arrangements, pictures and words.
braid-title = A braid of your own
braid-what = Place the cords in their slots, then work one repeat on the disk: lift a cord from a slot, lay it into another. What cannot be done is said at once.
braid-name = What is it called
braid-name-given = my braid
braid-slots = Slots of the disk
braid-disk = The disk: arrow keys go from slot to slot, Enter chooses
braid-slot-held = Slot { $slot }, holds a cord
braid-slot-empty = Slot { $slot }, empty
braid-doing = What you do on the disk
braid-place = Place cords
braid-move = Move cords
braid-slide = only slide along the rim
braid-slides = slides along the rim
braid-hint-place =
    { $count ->
        [0] Press the slots that hold a cord at the start.
        [one] One cord is placed.
       *[other] { $count } cords are placed.
    }
braid-hint-lift = Press the slot of the cord to lift.
braid-hint-lay = Press the slot to lay the cord of slot { $slot } into.
braid-empty = Slot { $slot } is empty; press a slot that holds a cord.
braid-moves = Moves of one repeat
braid-take = Move { $number }: lift from slot
braid-put = Move { $number }: lay into slot
braid-back = Take the last move back
braid-wrong = Move { $number }: { $sentence }
braid-closes =
    { $repeats ->
        [one] The repeat closes, and every cord is home after it; the pattern turns by { $shift } slots; hand { $hand }.
       *[other] The repeat closes; every cord is home after { $repeats } repeats; the pattern turns by { $shift } slots a repeat; hand { $hand }.
    }
braid-falls-apart = The cords of this braid do not all hold together: it falls into { $count } parts.
braid-begin = Begin a rope with this braid
wall-title = Arrangements for { $title }
wall-what = Choose the colours of the cords and how many there are of each. The wall shows every way of hanging them that looks different once the braid is on its way.
wall-colour = Colour { $number }
wall-count = Cords of colour { $number }
wall-less = Leave out colour { $number }
wall-more = One colour more
wall-do = Show them all
wall-join-turned = a rope turned end for end is the same
wall-join-swapped = exchanged colours are the same
wall-sum = { $sum } cords are given and the braid has { $cords }; make them equal.
wall-found =
    { $count ->
        [one] One arrangement
       *[other] { $count } arrangements
    }
wall-all = With any numbers of cords, { $colours } colours give { $count } looks;
wall-turned = { $count } when a rope turned end for end counts as the same;
wall-swapped = { $count } when exchanging the two colours counts as the same.
wall-one = Arrangement { $number }: { $colours }
wall-taken = The cords have these colours now.
picture-file = Picture (PNG or JPEG)
picture-large = The picture is larger than 8 MB; make it smaller and choose it again.
picture-mixing = Mixing of beads
mixing-none = none: the nearest bead
mixing-ordered = in a regular grain
mixing-diffused = in a free grain
picture-fit = Size
picture-fit-whole = show the whole picture
picture-fit-fill = fill the part of the rope
picture-arc = Round the rope, degrees
picture-upright = upright on a hanging rope
crop-left = Cut off at the left, from %
crop-top = Cut off at the top, from %
crop-right = Keep to the right, to %
crop-bottom = Keep down to, %
word-text = Word
word-way = How it is read
word-along = along the rope
word-stacked = letters under each other
word-round = round the rope
lay-on-centre = Off the front line, degrees
lay-on-preview = So it would lie. Nothing is changed before you take it.
lay-on-take = Take it
did-picture = a picture laid on
did-word = a word laid on
