//! published
