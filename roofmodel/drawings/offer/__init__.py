"""The customer's offer as PDF and workbook; start at `offer_pdf`."""
