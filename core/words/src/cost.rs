//! What a way costs the crop, or gives it.

use kerfbook_science::units::{AreaMass, Mass, Volume};

use crate::quantity::OUNCES_PER_POUND;
use crate::{Units, Words};

/// The middle of the runs with the ends of their range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// A tenth of the runs is below.
    pub p10: f64,
    /// The middle one.
    pub p50: f64,
    /// A tenth of the runs is above.
    pub p90: f64,
}

/// What the nitrogen is counted by.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Per {
    /// Ground, kg/ha.
    Area,
    /// A tree, g.
    Tree,
    /// A litre of container, mg.
    Litre,
}

/// Less than this is no difference: kg/ha, g a tree, mg a litre.
const NO_DIFFERENCE: f64 = 0.5;

impl Words {
    /// The sentence of cost; `lost` against nothing put down, negative where the crop gains.
    pub fn cost(&self, lost: Spread, per: Per) -> String {
        let gains = lost.p50 < 0.0;
        let (low, high) = if lost.p10 <= lost.p90 { (lost.p10, lost.p90) } else { (lost.p90, lost.p10) };
        if low.abs() < NO_DIFFERENCE && high.abs() < NO_DIFFERENCE && lost.p50.abs() < NO_DIFFERENCE {
            return self.label("cost-none");
        }
        let crosses = low < -NO_DIFFERENCE && high > NO_DIFFERENCE;
        if per == Per::Area && crosses {
            return self.crossing(lost.p50, -low, high);
        }
        if lost.p50.abs() < NO_DIFFERENCE && !crosses {
            let (id, most) =
                if high >= NO_DIFFERENCE { ("cost-up-to", high) } else { ("cost-gain-up-to", -low) };
            return self.say(id, &[("most", self.lost_quantity(most, per))]);
        }
        let id = match (per, gains, self.units()) {
            (Per::Area, false, _) => "cost-loses",
            (Per::Area, true, _) => "cost-gains",
            (Per::Tree, false, _) => "cost-loses-tree",
            (Per::Tree, true, _) => "cost-gains-tree",
            (Per::Litre, false, Units::Metric) => "cost-loses-litre",
            (Per::Litre, true, Units::Metric) => "cost-gains-litre",
            (Per::Litre, false, Units::Us) => "cost-loses-gallon",
            (Per::Litre, true, Units::Us) => "cost-gains-gallon",
        };
        let (near, far) = if gains { (-high, -low) } else { (low, high) };
        let middle = self.lost_quantity(lost.p50.abs(), per);
        let (low, high) = (self.lost_number(near, per), self.lost_number(far, per));
        self.say(id, &[("middle", middle), ("low", low), ("high", high)])
    }

    fn crossing(&self, middle: f64, gain: f64, loss: f64) -> String {
        let nitrogen = |kg_ha: f64| self.nitrogen(AreaMass::from_kg_ha(kg_ha));
        let number = |kg_ha: f64| self.nitrogen_number(AreaMass::from_kg_ha(kg_ha));
        if middle.abs() < NO_DIFFERENCE {
            return self.say("cost-even", &[("loss", nitrogen(loss)), ("gain", nitrogen(gain))]);
        }
        let id = if middle > 0.0 { "cost-loses-or-gains" } else { "cost-gains-or-loses" };
        self.say(id, &[("middle", nitrogen(middle.abs())), ("loss", number(loss)), ("gain", number(gain))])
    }

    fn lost_quantity(&self, amount: f64, per: Per) -> String {
        let id = match (per, self.units()) {
            (Per::Area, _) => return self.nitrogen(AreaMass::from_kg_ha(amount)),
            (Per::Tree, Units::Metric) => "unit-g",
            (Per::Tree, Units::Us) => "unit-oz",
            (Per::Litre, _) => "unit-mg",
        };
        self.counted(id, amount, self.lost_number(amount, per))
    }

    fn lost_number(&self, amount: f64, per: Per) -> String {
        match (per, self.units()) {
            (Per::Area, _) => self.nitrogen_number(AreaMass::from_kg_ha(amount)),
            (Per::Tree | Per::Litre, Units::Metric) => self.coarse(amount),
            (Per::Tree, Units::Us) => self.significant(Mass::from_g(amount).lb() * OUNCES_PER_POUND, 2),
            // US growers dose containers by the gallon, and still in milligrams.
            (Per::Litre, Units::Us) => self.coarse(amount * Volume::from_us_gallons(1.0).litres()),
        }
    }
}
