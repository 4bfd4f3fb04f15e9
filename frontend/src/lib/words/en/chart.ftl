# The chart.
chart-title = Chart: stations across, rows along
wind-N = north
wind-E = east
wind-S = south
wind-W = west
chart-cell = row { $row }, { $station }, { $bead }
