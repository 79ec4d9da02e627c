"""Facts: one module a family, one function a fact."""
