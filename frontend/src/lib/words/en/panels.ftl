# What stands beside the rope and its chart.
tray-title = Bead in hand
tray-stack = stack of { $count }
tray-count = { $count } · key { $at }
tray-change = Change { $name }
tray-change-short = change
tray-bare = the cord shows · key 0
tray-add = Add a bead
facts-title = What it measures
facts-unknown = not known yet
facts-none = Nothing can be measured before what is wrong above is mended.
facts-within = { $basis }, give or take { $error }
facts-length = Length of the rows
facts-thickness = Thickness
facts-accents = { $across } across the accents
facts-fits = Fits
facts-fits-wrist = a wrist of { $wrist }
facts-fits-range = loose on { $from }, tight on { $to }; ends and clasp reckoned in
facts-weight = Weight
facts-weight-rests = beads and cord
facts-drift = One turn of a column
facts-no-turn = does not turn
facts-turn = { $rows } rows
facts-rows = Rows
facts-rise = { $rise } gained a row
facts-cut = Cut
facts-cut-many = { $count } of { $each }
facts-cap = End cap
basis-estimated = estimated
basis-solved = solved
basis-not-predicted-yet = not predicted yet
basis-corrected-by-a-swatch = corrected by your swatch
twist-held = { $deg }° a row, disk held still
twist-hanging = { $deg }° a row, work hanging free
twist-asked = { $deg }° a row, as the design asks
twist-measured = { $deg }° a row, measured on your swatch
remarks-title = What to look at
remarks-fault = To be mended:
remarks-show = Show them
remarks-notes =
    { $count ->
        [one] One thing good to know
       *[other] { $count } things good to know
    }
