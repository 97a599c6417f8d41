//! Places and quantities on the ground: walked, taped, ringed and weighed.
