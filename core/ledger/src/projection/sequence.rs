//! Entries that cannot have happened in that order or in that place. They are kept, flagged and counted: somebody wrote
//! them down, and which of two days or places is wrong only a person can say.

use std::collections::BTreeSet;
use std::rc::Rc;

use super::current::{Current, Flag, Standing, named};
use super::graph::{Entries, target_of};
use super::place::WHOLE_BP;
use crate::entry::id::EntryId;
use crate::entry::kind::{Body, Kind, PlaceKind, Subject};
use crate::error::Result;

impl<E: Entries> Standing<'_, E> {
    /// Flags for the place of an entry among the others.
    pub(super) fn sequence(&self, current: &Current) -> Result<BTreeSet<Flag>> {
        let mut flags = BTreeSet::new();
        let Some(kind) = current.original.known_kind() else { return Ok(flags) };
        if target_of(&current.body).is_some() {
            return Ok(flags);
        }
        if let Some(subject) = current.subject
            && matches!(kind.subject(), Subject::Place | Subject::HoldingOrPlace)
            && kind != Kind::PlaceClosed
            && self.closed_on(subject)?.is_some_and(|closed| current.date > closed)
        {
            flags.insert(Flag::Late);
        }
        for (other, _) in named(current).0 {
            // Notes and tasks may be about what is still to come.
            if kind.subject() == Subject::Anything && current.subject == Some(other) {
                continue;
            }
            let Some(other) = self.changed(other)? else { continue };
            let Some(named_kind) = other.original.known_kind() else { continue };
            if begins(named_kind) && current.date < other.date {
                flags.insert(Flag::Early);
            }
            if lies(named_kind) && kind.subject() == Subject::Place && other.subject != current.subject {
                flags.insert(Flag::Elsewhere);
            }
        }
        if matches!(current.body, Body::SoilWorked(_)) && self.barren(current.subject)? {
            flags.insert(Flag::NothingGrows);
        }
        if kind.subject() == Subject::Trial {
            flags.extend(self.of_trial(current)?);
        }
        let (of, flag) = match &current.body {
            Body::LayerLifted(lift) => (lift.layer, Flag::LiftedTooMuch),
            Body::TaskClosed(closing) => (closing.task, Flag::ClosedTwice),
            _ => return Ok(flags),
        };
        if self.surplus(of, kind)?.contains(&current.original.id) {
            flags.insert(flag);
        }
        Ok(flags)
    }

    /// Whether a place is a path or a yard.
    fn barren(&self, place: Option<EntryId>) -> Result<bool> {
        let Some(place) = place.map(|id| self.changed(id)).transpose()?.flatten() else { return Ok(false) };
        Ok(match &place.body {
            Body::PlaceOutlined(body) => matches!(body.place_kind, PlaceKind::Path | PlaceKind::Yard),
            _ => false,
        })
    }

    /// Liftings of a layer beyond the whole of it, or closings of a task beyond the first, in order of days.
    fn surplus(&self, of: EntryId, kind: Kind) -> Result<Rc<BTreeSet<EntryId>>> {
        if let Some(known) = self.surplus.borrow().get(&(of, kind)) {
            return Ok(Rc::clone(known));
        }
        let at = self.changed(of)?.and_then(|layer| layer.subject);
        let mut shares = Vec::new();
        for id in self.candidates(of, kind)? {
            let Some(current) = self.resting(id)? else { continue };
            let share_bp = match &current.body {
                Body::LayerLifted(lift) if lift.layer == of && current.subject == at => lift.share_bp,
                Body::TaskClosed(closing) if closing.task == of => WHOLE_BP,
                _ => continue,
            };
            if current.counts() {
                shares.push((current.order(), share_bp));
            }
        }
        shares.sort_unstable();
        let mut gone_bp = 0_u32;
        let mut surplus = BTreeSet::new();
        for ((_, _, id), share_bp) in shares {
            gone_bp = gone_bp.saturating_add(share_bp);
            if gone_bp > WHOLE_BP {
                surplus.insert(id);
            }
        }
        let surplus = Rc::new(surplus);
        self.surplus.borrow_mut().insert((of, kind), Rc::clone(&surplus));
        Ok(surplus)
    }
}

/// Whether entries of the kind begin something that others follow in time. A place was there before it was measured.
const fn begins(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::LoadTakenIn
            | Kind::BatchBlended
            | Kind::LayerLifted
            | Kind::PileBuilt
            | Kind::PileFinished
            | Kind::PutDown
            | Kind::FeedGiven
            | Kind::CropStarted
            | Kind::TaskSet
            | Kind::TrialLaidOut
    )
}

/// Whether entries of the kind are about something that lies or grows on its place.
const fn lies(kind: Kind) -> bool {
    matches!(kind, Kind::PutDown | Kind::FeedGiven | Kind::CropStarted)
}
