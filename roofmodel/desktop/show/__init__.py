"""What is shown to the customer: the roof in the photograph; start reading at `photo_page`."""
