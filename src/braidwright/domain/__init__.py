"""The craft itself: braids, stitches, strings, designs. No files, no clock, no chance."""
