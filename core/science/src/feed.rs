//! feed
