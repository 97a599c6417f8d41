//! One act a file: read a projection, compute, append. The only place where ledger and science meet.

pub mod scenario;
