"""A blank at full size, to be marked out from: as a PDF in tiles, as DXF and as SVG."""
