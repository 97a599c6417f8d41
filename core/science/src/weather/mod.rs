//! weather
