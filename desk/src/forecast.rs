//! `forecast`.

use crate::cli;
use crate::context::Context;
use crate::fault::Fault;
use crate::scenario;

pub(crate) fn run(args: &cli::Forecast, context: &Context) -> Result<(), Fault> {
    let Some(path) = &args.scenario else { return Ok(()) };
    let described = scenario::read(path)?;
    context.print(&format!("{described:#?}"))
}
