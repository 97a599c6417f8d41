//! soil
