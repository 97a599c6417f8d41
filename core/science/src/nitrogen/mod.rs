//! nitrogen
