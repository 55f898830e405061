"""Tags: their ten-symbol codes, how a reading is judged, and how labels are drawn and printed."""
