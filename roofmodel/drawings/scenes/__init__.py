"""The roof and what stands round it as solid things to look at: glazed as it is, and finished."""
