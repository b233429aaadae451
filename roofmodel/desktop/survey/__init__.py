"""What was measured: the shape, the bars and the readings; start at `survey_panel`."""
