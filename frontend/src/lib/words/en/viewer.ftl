# The rope in three dimensions.
viewer-region = The rope, { NUMBER($turn, maximumFractionDigits: 0) }° turned
viewer-help = Drag up or down to turn the rope, sideways to move along it. Keys: up and down arrow turn it, left and right arrow move along it, Home and End go to its ends.
viewer-help-painting = Drag across beads to lay the chosen bead. To turn the rope, drag beside it, with the right button, or with Shift held; on a touch screen use two fingers. Keys: up and down arrow turn it, left and right arrow move along it, Home and End go to its ends.
viewer-help-worn = Drag to look at the bracelet from another side. Keys: up and down arrow turn the rope on its own axis, left and right arrow go round the wrist.
viewer-missing = This browser cannot draw the rope in three dimensions (WebGL is switched off or missing). The chart shows every bead.
viewer-lost = The browser took the drawing of the rope away, perhaps for want of memory. Nothing of your design is lost.
viewer-again = Draw the rope again
viewer-waiting = Drawing the rope…
