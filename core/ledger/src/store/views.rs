//! Views that were read once, so that a screen does not read all of them again.

use std::any::Any;
use std::cell::RefCell;
use std::collections::BTreeMap;
use std::fmt;
use std::sync::Arc;

use crate::entry::codec;
use crate::entry::field::Field;
use crate::entry::id::EntryId;
use crate::error::{LedgerError, Result};
use crate::projection::Sort;

/// What was read, with the bytes that it was read from. The bytes in the file decide: whoever wrote them, and whether or
/// not that was undone, a view stands as long as they are the same.
#[derive(Default)]
pub(super) struct Views(RefCell<BTreeMap<(i64, EntryId), Kept>>);

struct Kept {
    bytes: Box<[u8]>,
    view: Arc<dyn Any + Send + Sync>,
}

impl Views {
    /// The view that these bytes say.
    pub(super) fn read<T>(&self, sort: Sort, id: EntryId, bytes: &[u8]) -> Result<Arc<T>>
    where
        T: Field + Send + Sync + 'static,
    {
        let mut kept = self.0.borrow_mut();
        let known = kept.get(&(sort.code(), id)).filter(|known| *known.bytes == *bytes);
        if let Some(Ok(view)) = known.map(|known| Arc::clone(&known.view).downcast()) {
            return Ok(view);
        }
        let view = Arc::new(decoded::<T>(bytes)?);
        kept.insert((sort.code(), id), Kept { bytes: bytes.into(), view: Arc::clone(&view) as _ });
        Ok(view)
    }
}

impl fmt::Debug for Views {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(to, "Views({})", self.0.borrow().len())
    }
}

fn decoded<T: Field>(bytes: &[u8]) -> Result<T> {
    let broken = || LedgerError::Damaged("a projection does not read; rebuild the book".to_owned());
    T::from_value(&codec::decode(bytes).map_err(|_| broken())?).map_err(|_| broken())
}
