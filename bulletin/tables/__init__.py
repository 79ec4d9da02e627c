"""A maker's CSV files in: what each table must look like, how it is read and checked, how it stood on a day."""
