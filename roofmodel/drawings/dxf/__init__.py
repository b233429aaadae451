"""Writes drawings as DXF; start at `dxf_pen`."""
