//! material
