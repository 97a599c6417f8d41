//! An entry as it stands now: corrections applied, withdrawals heeded, doubts flagged.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

use serde::Serialize;

use super::graph::{Entries, changes, target_of};
use super::trial::Course;
use crate::entry::field::{Field, codes};
use crate::entry::id::{Date, DeviceId, EntryId};
use crate::entry::kind::{Body, EntryCorrected, Kind, Replacement};
use crate::entry::{Entry, check_time};
use crate::error::Result;

codes! {
    /// What has to be said about an entry.
    Flag, "flag" {
        /// Taken out.
        Withdrawn = 1, "withdrawn";
        /// Fields were replaced.
        Corrected = 2, "corrected";
        /// Changed by two who did not know of each other; a person has to settle it.
        Unsettled = 3, "unsettled";
        /// Something it names was withdrawn; it stands in no sum.
        RestsOnWithdrawn = 4, "rests on a withdrawn entry";
        /// Something it names has not arrived or is of another kind; it stands in no sum.
        RestsOnUnknown = 5, "rests on an unknown entry";
        /// For a day after its place was closed.
        Late = 6, "after the place was closed";
        /// A correction asks for what the field cannot hold; it was left out.
        CorrectionUnread = 7, "a correction does not read";
        /// Fields of a known kind that do not read; it stands in no sum.
        Unreadable = 8, "does not read";
        /// For a day before the batch came, the layer was put down, the crop was started or the task was set.
        Early = 9, "before what it names";
        /// Names a layer, crop or feed of another place, and changes nothing there.
        Elsewhere = 10, "names something of another place";
        /// With what was lifted of the layer before it, more than lay there.
        LiftedTooMuch = 11, "more was lifted than lay there";
        /// The soil of a path or yard was worked.
        NothingGrows = 12, "worked where nothing grows";
        /// The task or trial was closed before.
        ClosedTwice = 13, "closed before";
        /// Of a trial after it was closed, when treatments could be seen.
        TrialWasClosed = 14, "after the trial was closed";
        /// Of a plot after it was lost.
        PlotWasLost = 15, "after the plot was lost";
        /// Of a plot that the trial has not.
        NoSuchPlot = 16, "no such plot";
        /// The same rater scored the same leaves of the plot before on that day.
        ScoredTwice = 17, "scored before";
    }
}

/// How far chains of withdrawals are followed.
const MAX_DEPTH: usize = 64;

/// An entry as it stands.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Current {
    /// As it was written.
    pub original: Entry,
    /// What it is about now.
    pub subject: Option<EntryId>,
    /// The day now.
    pub date: Date,
    /// The minute now.
    pub minute: Option<u16>,
    /// The person now.
    pub by: Option<EntryId>,
    /// What it says now.
    pub body: Body,
    /// Changes that were applied, in order.
    pub changes: Vec<EntryId>,
    /// Changes that stand at the end: more than one is a conflict; a new change names them all as seen.
    pub tips: Vec<EntryId>,
    /// What has to be said about it.
    pub flags: BTreeSet<Flag>,
}

impl Current {
    /// Whether it stands in sums.
    pub fn counts(&self) -> bool {
        [Flag::Withdrawn, Flag::RestsOnWithdrawn, Flag::RestsOnUnknown, Flag::Unreadable]
            .iter()
            .all(|flag| !self.flags.contains(flag))
    }

    /// Order within a projection: the day, then the order of writing.
    pub(crate) fn order(&self) -> (Date, crate::Hlc, EntryId) {
        (self.date, self.original.hlc, self.original.id)
    }
}

/// Rank of a device where changes conflict. Roles are given by a kind of later versions: until then all are equal.
const fn role(_device: DeviceId) -> u8 {
    0
}

/// Liftings and closings beyond what there was, by what is lifted or closed and by the kind of entry: a lifting may name a
/// task by mistake.
type Surplus = BTreeMap<(EntryId, Kind), Rc<BTreeSet<EntryId>>>;

/// Reads entries as they stand, remembering what others rest on.
pub(crate) struct Standing<'a, E: Entries> {
    entries: &'a E,
    changed: RefCell<BTreeMap<EntryId, Rc<Current>>>,
    rests: RefCell<BTreeMap<EntryId, BTreeSet<Flag>>>,
    known: RefCell<BTreeMap<EntryId, Rc<Current>>>,
    closed: RefCell<BTreeMap<EntryId, Option<Date>>>,
    pub(super) surplus: RefCell<Surplus>,
    pub(super) courses: RefCell<BTreeMap<EntryId, Rc<Course>>>,
}

impl<'a, E: Entries> Standing<'a, E> {
    pub(crate) fn new(entries: &'a E) -> Self {
        Self {
            entries,
            changed: RefCell::default(),
            rests: RefCell::default(),
            known: RefCell::default(),
            closed: RefCell::default(),
            surplus: RefCell::default(),
            courses: RefCell::default(),
        }
    }

    /// The entry as it stands; none where it has not arrived.
    pub(crate) fn current(&self, id: EntryId) -> Result<Option<Rc<Current>>> {
        if let Some(known) = self.known.borrow().get(&id) {
            return Ok(Some(Rc::clone(known)));
        }
        let Some(changed) = self.changed(id)? else { return Ok(None) };
        let mut doubts = self.rests_on(id)?;
        doubts.extend(self.sequence(&changed)?);
        let current = if doubts.is_empty() {
            changed
        } else {
            let mut current = Current::clone(&changed);
            current.flags.extend(doubts);
            Rc::new(current)
        };
        self.known.borrow_mut().insert(id, Rc::clone(&current));
        Ok(Some(current))
    }

    /// The entry with its changes; what it rests on and its place among others are not looked at.
    pub(crate) fn changed(&self, id: EntryId) -> Result<Option<Rc<Current>>> {
        if let Some(changed) = self.changed.borrow().get(&id) {
            return Ok(Some(Rc::clone(changed)));
        }
        let Some(entry) = self.entries.entry(id)? else { return Ok(None) };
        let changed = Rc::new(self.with_changes(&entry)?);
        self.changed.borrow_mut().insert(id, Rc::clone(&changed));
        Ok(Some(changed))
    }

    /// The entry with its changes and with flags for what it rests on: enough to say whether it counts.
    pub(super) fn resting(&self, id: EntryId) -> Result<Option<Current>> {
        let Some(changed) = self.changed(id)? else { return Ok(None) };
        let mut current = Current::clone(&changed);
        current.flags.extend(self.rests_on(id)?);
        Ok(Some(current))
    }

    /// Flags for all that the entry names, and for what that names in turn.
    ///
    /// An entry rests on a withdrawn one where a path of names leads to it, on an unknown one where a path leads to a
    /// name that is missing or of the wrong kind. In a circle an entry rests on itself.
    fn rests_on(&self, id: EntryId) -> Result<BTreeSet<Flag>> {
        if let Some(known) = self.rests.borrow().get(&id) {
            return Ok(known.clone());
        }
        let mut flags = BTreeSet::new();
        let mut met = BTreeSet::new();
        let mut open = vec![id];
        while let Some(at) = open.pop() {
            if !met.insert(at) {
                continue;
            }
            if let Some(known) = self.rests.borrow().get(&at) {
                flags.extend(known);
                continue;
            }
            let Some(current) = self.changed(at)? else { continue };
            let (named, complete) = named(&current);
            if !complete {
                flags.insert(Flag::RestsOnUnknown);
            }
            for (other, kinds) in named {
                let Some(found) = self.changed(other)? else {
                    flags.insert(Flag::RestsOnUnknown);
                    continue;
                };
                let kind = found.original.known_kind();
                if !kinds.is_empty() && !kind.is_some_and(|kind| kinds.contains(&kind)) {
                    flags.insert(Flag::RestsOnUnknown);
                }
                if found.flags.contains(&Flag::Withdrawn) {
                    flags.insert(Flag::RestsOnWithdrawn);
                }
                open.push(other);
            }
        }
        self.rests.borrow_mut().insert(id, flags.clone());
        Ok(flags)
    }

    /// Entries of a kind that name this one as they were written or in a correction.
    pub(super) fn candidates(&self, named: EntryId, kind: Kind) -> Result<BTreeSet<EntryId>> {
        let mut candidates: BTreeSet<EntryId> = self.entries.naming_as(named, kind)?.into_iter().collect();
        for by in self.entries.naming_as(named, Kind::EntryCorrected)? {
            if let Some(entry) = self.entries.entry(by)? {
                candidates.extend(changes(&entry));
            }
        }
        Ok(candidates)
    }

    fn with_changes(&self, entry: &Rc<Entry>) -> Result<Current> {
        let mut current = Current {
            original: Entry::clone(entry),
            subject: entry.subject,
            date: entry.date,
            minute: entry.minute,
            by: entry.by,
            body: entry.read(),
            changes: Vec::new(),
            tips: Vec::new(),
            flags: BTreeSet::new(),
        };
        if target_of(&current.body).is_some() {
            // A change is not itself changed: it is followed by another change of its target, or withdrawn.
            if !self.active(entry.id)? {
                current.flags.insert(Flag::Withdrawn);
            }
            current.tips = self.withdrawals(entry.id)?;
            return Ok(current);
        }
        let changes = Changes::of(self, entry.id)?;
        let tips = changes.tips();
        if tips.len() > 1 {
            current.flags.insert(Flag::Unsettled);
        }
        if let Some(winner) = tips.iter().copied().max_by_key(|tip| (role(tip.device), *tip)) {
            for id in changes.leading_to(winner) {
                match changes.all.get(&id) {
                    Some((Body::EntryCorrected(correction), true)) => {
                        let flag = if apply(&mut current, correction) {
                            Flag::Corrected
                        } else {
                            Flag::CorrectionUnread
                        };
                        current.flags.insert(flag);
                        current.changes.push(id);
                    }
                    Some((Body::EntryWithdrawn(_), true)) => {
                        current.flags.insert(Flag::Withdrawn);
                        current.changes.push(id);
                    }
                    _ => {}
                }
            }
        }
        current.tips = tips;
        if matches!(current.body, Body::Unreadable(_)) {
            current.flags.insert(Flag::Unreadable);
        }
        Ok(current)
    }

    /// Whether no standing withdrawal names the change.
    fn active(&self, id: EntryId) -> Result<bool> {
        self.active_within(id, &mut Vec::new())
    }

    fn active_within(&self, id: EntryId, path: &mut Vec<EntryId>) -> Result<bool> {
        path.push(id);
        let mut active = true;
        if path.len() < MAX_DEPTH {
            for by in self.withdrawals(id)? {
                if !path.contains(&by) && self.active_within(by, path)? {
                    active = false;
                    break;
                }
            }
        }
        path.pop();
        Ok(active)
    }

    /// Withdrawals that name the entry, whether they stand or not.
    fn withdrawals(&self, id: EntryId) -> Result<Vec<EntryId>> {
        let mut found = Vec::new();
        for by in self.entries.changing(id)? {
            if let Some(entry) = self.entries.entry(by)?
                && matches!(entry.read(), Body::EntryWithdrawn(change) if change.target == id)
            {
                found.push(by);
            }
        }
        found.sort_unstable();
        Ok(found)
    }

    /// The first day that a standing closing gives for the place.
    pub(crate) fn closed_on(&self, place: EntryId) -> Result<Option<Date>> {
        if let Some(known) = self.closed.borrow().get(&place) {
            return Ok(*known);
        }
        let mut closed = None;
        for id in self.candidates(place, Kind::PlaceClosed)? {
            let Some(closing) = self.changed(id)? else { continue };
            if matches!(closing.body, Body::PlaceClosed(_))
                && closing.subject == Some(place)
                && !closing.flags.contains(&Flag::Withdrawn)
            {
                closed = Some(closed.map_or(closing.date, |known: Date| known.min(closing.date)));
            }
        }
        self.closed.borrow_mut().insert(place, closed);
        Ok(closed)
    }
}

/// What an entry rests on, each with the kinds that will do (none: any), and whether a subject that it needs is there.
pub(super) fn named(current: &Current) -> (Vec<(EntryId, &'static [Kind])>, bool) {
    let Some(kind) = current.original.known_kind() else { return (Vec::new(), true) };
    if target_of(&current.body).is_some() {
        return (Vec::new(), true);
    }
    let mut named: Vec<(EntryId, &'static [Kind])> =
        current.body.targets().into_iter().map(|target| (target.id, target.kinds)).collect();
    let kinds = kind.subject().kinds();
    named.extend(current.subject.map(|subject| (subject, kinds.unwrap_or_default())));
    (named, kinds.is_none() || current.subject.is_some())
}

/// The changes of one entry: what each says and whether it stands.
struct Changes {
    all: BTreeMap<EntryId, (Body, bool)>,
}

impl Changes {
    fn of<E: Entries>(standing: &Standing<'_, E>, target: EntryId) -> Result<Self> {
        let mut all = BTreeMap::new();
        for id in standing.entries.changing(target)? {
            if let Some(entry) = standing.entries.entry(id)? {
                let body = entry.read();
                if target_of(&body) == Some(target) {
                    all.insert(id, (body, standing.active(id)?));
                }
            }
        }
        Ok(Self { all })
    }

    fn seen(&self, id: EntryId) -> Vec<EntryId> {
        let mut seen = match self.all.get(&id) {
            Some((Body::EntryCorrected(change), _)) => change.seen.clone(),
            Some((Body::EntryWithdrawn(change), _)) => change.seen.clone(),
            _ => Vec::new(),
        };
        seen.retain(|other| self.all.contains_key(other));
        seen.sort_unstable_by_key(|other| (role(other.device), *other));
        seen
    }

    /// Standing changes that no other standing change builds on.
    fn tips(&self) -> Vec<EntryId> {
        let standing: Vec<EntryId> =
            self.all.iter().filter(|(_, (_, active))| *active).map(|(id, _)| *id).collect();
        let mut built_on = BTreeSet::new();
        for id in &standing {
            built_on.extend(self.leading_to(*id).into_iter().filter(|other| other != id));
        }
        let tips: Vec<EntryId> = standing.iter().copied().filter(|id| !built_on.contains(id)).collect();
        // Changes that name each other in a circle have no end: all of them are in conflict.
        if tips.is_empty() { standing } else { tips }
    }

    /// What a change builds on, oldest first, and the change itself.
    fn leading_to(&self, end: EntryId) -> Vec<EntryId> {
        let mut order = Vec::new();
        let mut visited = BTreeSet::new();
        let mut open = vec![(end, false)];
        while let Some((id, finished)) = open.pop() {
            if finished {
                order.push(id);
            } else if visited.insert(id) {
                open.push((id, true));
                // The last pushed comes first: push the strongest first, so that it is applied last.
                open.extend(self.seen(id).into_iter().rev().map(|other| (other, false)));
            }
        }
        order
    }
}

/// Replaces the fields; all or none.
fn apply(current: &mut Current, correction: &EntryCorrected) -> bool {
    let Some((mut fields, kind, version)) =
        current.body.write().map(|(kind, version, fields)| (fields, kind.number(), version)).or_else(|| {
            match &current.body {
                Body::Later(fields) | Body::Unreadable(fields) => {
                    Some((fields.clone(), current.original.kind, current.original.version))
                }
                _ => None,
            }
        })
    else {
        return false;
    };
    let (mut subject, mut date, mut minute, mut by) =
        (current.subject, current.date, current.minute, current.by);
    for Replacement { field, value } in &correction.replaced {
        let fits = match *field {
            Replacement::SUBJECT => Option::from_value(value).map(|new| subject = new).is_ok(),
            Replacement::DATE => Date::from_value(value).map(|new| date = new).is_ok(),
            Replacement::MINUTE => Option::from_value(value).map(|new| minute = new).is_ok(),
            Replacement::BY => Option::from_value(value).map(|new| by = new).is_ok(),
            number => usize::try_from(number)
                .ok()
                .and_then(|number| fields.get_mut(number))
                .map(|field| field.clone_from(value))
                .is_some(),
        };
        if !fits {
            return false;
        }
    }
    let body = Body::read(kind, version, &fields);
    if matches!(body, Body::Unreadable(_)) || check_time(minute, current.original.offset_min).is_err() {
        return false;
    }
    (current.subject, current.date, current.minute, current.by, current.body) =
        (subject, date, minute, by, body);
    true
}
