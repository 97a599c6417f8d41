//! Marks on days: a needle from the axis up to a symbol with words beside it, so stacked that no words touch.

use crate::band::MarkKind;
use crate::list::{Anchor, DisplayList, Point, Role};
use crate::text;

/// Height of one row of flags, pixels.
pub(crate) const LANE_PX: f64 = 19.0;
/// From the needle to its words.
const BESIDE_PX: f64 = 8.0;

/// What a flag is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Sign {
    /// Something done or expected on a day.
    Mark(MarkKind),
    /// Something measured.
    Reading,
}

impl Sign {
    pub(crate) const fn role(self) -> Role {
        match self {
            Self::Mark(MarkKind::PutDown) => Role::PutDown,
            Self::Mark(MarkKind::Feed) => Role::Feed,
            Self::Mark(MarkKind::Hungry) => Role::Hungry,
            Self::Mark(MarkKind::HungryBare) => Role::HungryBare,
            Self::Mark(MarkKind::Look) => Role::Look,
            Self::Mark(MarkKind::Worked) => Role::Worked,
            Self::Mark(MarkKind::Lifted) => Role::Lifted,
            Self::Reading => Role::Reading,
        }
    }
}

/// A flag before and after it has its row.
#[derive(Debug, Clone)]
pub(crate) struct Flag {
    pub(crate) sign: Sign,
    /// Of the needle.
    pub(crate) x: f64,
    words: String,
    rightward: bool,
    left: f64,
    right: f64,
    /// Rows are counted from the plot upward.
    lane: usize,
}

impl Flag {
    /// A flag whose words stand right of its needle, or left of it where the picture ends.
    pub(crate) fn new(sign: Sign, x: f64, words: &str, edge: f64, width: f64) -> Self {
        let (before, after) = (x - edge - BESIDE_PX, width - edge - x - BESIDE_PX);
        let wide = text::width(Role::Flag, words);
        let rightward = wide <= after || (wide > before && after >= before);
        let words = text::fit(Role::Flag, words, if rightward { after } else { before });
        let reach = BESIDE_PX + text::width(Role::Flag, &words) + 4.0;
        let (left, right) = if rightward { (x - 6.0, x + reach) } else { (x - reach, x + 6.0) };
        Self { sign, x, words, rightward, left, right, lane: 0 }
    }

    fn touches(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right
    }

    /// The needle of a flag further up passes through these words.
    fn crossed_by(&self, other: &Self) -> bool {
        (other.x - self.x).abs() > 0.5 && other.x > self.left && other.x < self.right
    }
}

/// Gives each flag the lowest row where its words are free and no needle passes through words; rows used.
pub(crate) fn stack(flags: &mut [Flag]) -> usize {
    let mut order: Vec<usize> = (0..flags.len()).collect();
    // Words that run right are clear of needles when they are stacked from the right, and the other way round.
    order.sort_by(|a, b| {
        let key = |index: usize| {
            flags
                .get(index)
                .map_or((true, 0.0), |flag| (!flag.rightward, if flag.rightward { -flag.x } else { flag.x }))
        };
        let ((turned_a, x_a), (turned_b, x_b)) = (key(*a), key(*b));
        turned_a.cmp(&turned_b).then(x_a.total_cmp(&x_b)).then(a.cmp(b))
    });
    let mut stacked: Vec<Flag> = Vec::new();
    let mut lanes = 0;
    for index in order {
        let Some(flag) = flags.get_mut(index) else { continue };
        let fits = |lane: usize| {
            stacked.iter().all(|other| match other.lane.cmp(&lane) {
                std::cmp::Ordering::Equal => !flag.touches(other),
                std::cmp::Ordering::Less => !other.crossed_by(flag),
                std::cmp::Ordering::Greater => !flag.crossed_by(other),
            })
        };
        // Where two needles each pass through the other's words, the upper row's passes behind the lower words.
        flag.lane = (0..lanes).find(|lane| fits(*lane)).unwrap_or(lanes);
        lanes = lanes.max(flag.lane + 1);
        stacked.push(flag.clone());
    }
    lanes
}

/// Draws the needles first and the words over them. `foot` gives where a needle ends below.
pub(crate) fn draw(list: &mut DisplayList, flags: &[Flag], above: f64, foot: impl Fn(usize) -> f64) {
    let middle = |flag: &Flag| above - LANE_PX * (flag.lane as f64 + 0.5);
    for (index, flag) in flags.iter().enumerate() {
        list.line(flag.sign.role(), (flag.x, middle(flag) + 4.5), (flag.x, foot(index)));
    }
    for flag in flags {
        symbol(list, flag.sign, flag.x, middle(flag));
        let (x, anchor) = if flag.rightward {
            (flag.x + BESIDE_PX, Anchor::Start)
        } else {
            (flag.x - BESIDE_PX, Anchor::End)
        };
        list.text(Role::Flag, (x, middle(flag) + 4.5), anchor, &flag.words);
    }
}

/// A shape for each kind, so that colour is not needed to tell them apart.
pub(crate) fn symbol(list: &mut DisplayList, sign: Sign, x: f64, y: f64) {
    let role = sign.role();
    let outline =
        |offsets: &[(f64, f64)]| offsets.iter().map(|(dx, dy)| Point::at(x + dx, y + dy)).collect::<Vec<_>>();
    match sign {
        Sign::Mark(MarkKind::PutDown) => list.area(role, outline(&[(-6.0, -4.5), (6.0, -4.5), (0.0, 5.5)])),
        Sign::Mark(MarkKind::Feed) => list.circle(role, (x, y), 4.5, true),
        Sign::Mark(MarkKind::Hungry) => list.rect(role, (x - 4.5, y - 4.5), (9.0, 9.0)),
        // A frame of filled pieces: the line of this role is dashed.
        Sign::Mark(MarkKind::HungryBare) => {
            for (at, size) in [
                ((-4.5, -4.5), (9.0, 1.6)),
                ((-4.5, 2.9), (9.0, 1.6)),
                ((-4.5, -2.9), (1.6, 5.8)),
                ((2.9, -2.9), (1.6, 5.8)),
            ] {
                list.rect(role, (x + at.0, y + at.1), size);
            }
        }
        Sign::Mark(MarkKind::Look) => list.circle(role, (x, y), 4.5, false),
        Sign::Mark(MarkKind::Worked) => list.area(role, outline(&[(-6.0, 4.5), (6.0, 4.5), (0.0, -5.5)])),
        Sign::Mark(MarkKind::Lifted) => {
            list.area(
                role,
                outline(&[(-6.0, 4.5), (0.0, -5.5), (6.0, 4.5), (3.5, 4.5), (0.0, -1.5), (-3.5, 4.5)]),
            );
        }
        Sign::Reading => list.area(role, outline(&[(-5.0, 0.0), (0.0, -5.0), (5.0, 0.0), (0.0, 5.0)])),
    }
}
