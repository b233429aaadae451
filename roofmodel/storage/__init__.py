"""The job file: read with a clear word about every fault, saved so that nothing is ever half-written."""
