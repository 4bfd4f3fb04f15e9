# The chart.
chart-title = Chart: stations across, rows along
chart-cell = row { $row }, { $station }, { $bead }
