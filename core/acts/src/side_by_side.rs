//! Places worked out side by side; what comes out does not depend on it.

use std::panic::resume_unwind;
use std::thread;

use crate::error::ActError;

/// How many at once.
const AT_ONCE: usize = 4;

/// The work on every item, in the order of the items; the first refusal where there is one.
///
/// # Errors
/// What the work refuses.
pub(crate) fn side_by_side<T: Sync, R: Send>(
    items: &[T],
    work: impl Fn(&T) -> Result<R, ActError> + Sync,
) -> Result<Vec<R>, ActError> {
    let mut done: Vec<(usize, R)> = thread::scope(|scope| {
        let work = &work;
        let part = |first: usize| {
            let own = items.iter().enumerate().skip(first).step_by(AT_ONCE);
            own.map(|(at, item)| Ok((at, work(item)?))).collect::<Result<Vec<_>, ActError>>()
        };
        let parts: Vec<_> =
            (0..AT_ONCE.min(items.len())).map(|first| scope.spawn(move || part(first))).collect();
        let parts = parts.into_iter().map(|part| part.join().unwrap_or_else(|panic| resume_unwind(panic)));
        parts.collect::<Result<Vec<_>, ActError>>()
    })?
    .into_iter()
    .flatten()
    .collect();
    done.sort_by_key(|(at, _)| *at);
    Ok(done.into_iter().map(|(_, done)| done).collect())
}
