"""The build-up, facets kept glazed, roof windows and lights; start at `layers_page`."""
