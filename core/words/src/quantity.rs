//! Quantities in the reader's units, rounded as far as they are known.

use kerfbook_science::units::{Area, AreaMass, Density, Length, Mass, Share, Temperature, Volume};

use crate::{Units, Words};

/// Avoirdupois ounces in a pound, exact.
pub(crate) const OUNCES_PER_POUND: f64 = 16.0;
/// Width of a finger, as growers measure depth; common practice, no source.
pub(crate) const FINGER: Length = Length::from_cm(2.0);

impl Words {
    fn unit(&self, id: &str, value: f64, number: String) -> String {
        self.counted(id, value, number)
    }

    /// A text in the plural of `count`, with the number already written.
    pub(crate) fn counted(&self, id: &str, count: f64, number: String) -> String {
        self.shown(id, &[], Some((count, number))).0
    }

    fn rounded_unit(&self, id: &str, value: f64) -> String {
        self.unit(id, value, self.rounded(value))
    }

    fn us(&self) -> bool {
        self.units == Units::Us
    }

    /// A mass, wet or dry.
    pub fn mass(&self, mass: Mass) -> String {
        let (id, value) = self.mass_parts(mass);
        self.rounded_unit(id, value)
    }

    fn mass_parts(&self, mass: Mass) -> (&'static str, f64) {
        let (id, in_unit) = self.mass_unit(mass);
        (id, in_unit(mass))
    }

    fn mass_unit(&self, mass: Mass) -> (&'static str, fn(Mass) -> f64) {
        if self.us() {
            match mass.lb().abs() {
                lb if lb < 1.0 => ("unit-oz", |mass| mass.lb() * OUNCES_PER_POUND),
                lb if lb < 4_000.0 => ("unit-lb", Mass::lb),
                _ => ("unit-us-ton", Mass::us_tons),
            }
        } else {
            match mass.kg().abs() {
                kg if kg < 1.0 => ("unit-g", Mass::g),
                kg if kg < 2_000.0 => ("unit-kg", Mass::kg),
                _ => ("unit-t", Mass::t),
            }
        }
    }

    /// "610 kg (480 to 770)", all in the unit of the middle.
    pub fn mass_range(&self, middle: Mass, low: Mass, high: Mass) -> String {
        let (id, in_unit) = self.mass_unit(middle);
        self.around(
            self.rounded_unit(id, in_unit(middle)),
            &self.rounded(in_unit(low)),
            &self.rounded(in_unit(high)),
        )
    }

    /// A mass that is only estimated: two significant digits.
    pub fn mass_about(&self, mass: Mass) -> String {
        let (id, value) = self.mass_parts(mass);
        self.unit(id, value, self.significant(value, 2))
    }

    /// A mass that is to be weighed out, as it is: whole and half ounces up to two pounds, grams up to a kilogram.
    pub fn weighed(&self, mass: Mass) -> String {
        let (id, value) = match (self.us(), mass.lb().abs(), mass.kg().abs()) {
            (true, lb, _) if lb < 2.0 => ("unit-oz", mass.lb() * OUNCES_PER_POUND),
            (true, ..) => ("unit-lb", mass.lb()),
            (false, _, kg) if kg < 1.0 => ("unit-g", mass.g()),
            (false, ..) => ("unit-kg", mass.kg()),
        };
        self.unit(id, value, self.number(value, 2))
    }

    /// A volume that is to be poured out, as it is.
    pub fn poured(&self, volume: Volume) -> String {
        let (id, value) = match (self.us(), volume.us_gallons().abs(), volume.litres().abs()) {
            (true, gallons, _) if gallons < 1.0 => ("unit-us-fluid-ounce", volume.us_gallons() * 128.0),
            (true, ..) => ("unit-us-gallon", volume.us_gallons()),
            (false, _, litres) if litres < 1.0 => ("unit-ml", volume.litres() * 1_000.0),
            (false, ..) => ("unit-l", volume.litres()),
        };
        self.unit(id, value, self.number(value, 2))
    }

    /// A mass of nitrogen: "410 g N", for a bed or a tree.
    pub fn nitrogen_mass(&self, mass: Mass) -> String {
        let (id, value) = if self.us() {
            if mass.lb().abs() < 1.0 {
                ("unit-oz-n", mass.lb() * OUNCES_PER_POUND)
            } else {
                ("unit-lb-n", mass.lb())
            }
        } else if mass.kg().abs() < 1.0 {
            ("unit-g-n", mass.g())
        } else {
            ("unit-kg-n", mass.kg())
        };
        self.unit(id, value, self.significant(value, 2))
    }

    /// Residue on ground: t/ha or tons per acre from one up, else kg/ha or lb per acre.
    pub fn area_mass(&self, dose: AreaMass) -> String {
        let (id, in_unit) = self.area_mass_unit(dose);
        self.rounded_unit(id, in_unit(dose))
    }

    fn area_mass_unit(&self, dose: AreaMass) -> (&'static str, fn(AreaMass) -> f64) {
        if self.us() {
            if dose.us_tons_acre().abs() < 1.0 {
                ("unit-lb-acre", AreaMass::lb_acre)
            } else {
                ("unit-us-ton-acre", AreaMass::us_tons_acre)
            }
        } else if dose.t_ha().abs() < 1.0 {
            ("unit-kg-ha", AreaMass::kg_ha)
        } else {
            ("unit-t-ha", AreaMass::t_ha)
        }
    }

    /// "30 t/ha (24 to 37)", all in the unit of the middle.
    pub fn area_mass_range(&self, middle: AreaMass, low: AreaMass, high: AreaMass) -> String {
        let (id, in_unit) = self.area_mass_unit(middle);
        self.around(
            self.rounded_unit(id, in_unit(middle)),
            &self.rounded(in_unit(low)),
            &self.rounded(in_unit(high)),
        )
    }

    /// A dose for a small bed: g/m2, or ounces or pounds per 100 square feet.
    pub fn bed_mass(&self, dose: AreaMass) -> String {
        if self.us() {
            let pounds = dose.lb_1000_ft2() / 10.0;
            if pounds.abs() < 1.0 {
                self.rounded_unit("unit-oz-100-ft2", pounds * OUNCES_PER_POUND)
            } else {
                self.rounded_unit("unit-lb-100-ft2", pounds)
            }
        } else {
            self.rounded_unit("unit-g-m2", dose.kg_m2() * 1_000.0)
        }
    }

    /// Nitrogen on ground: whole kg N/ha or lb N/acre, two significant digits.
    pub fn nitrogen(&self, dose: AreaMass) -> String {
        let value = self.nitrogen_value(dose);
        self.unit(self.nitrogen_unit(), value, self.coarse(value))
    }

    /// A stated dose or limit of nitrogen, in whole units.
    pub fn nitrogen_stated(&self, dose: AreaMass) -> String {
        let value = self.nitrogen_value(dose);
        self.unit(self.nitrogen_unit(), value, self.number(value, 0))
    }

    /// The number of [`Words::nitrogen`] alone, for tables whose head names the unit.
    pub fn nitrogen_number(&self, dose: AreaMass) -> String {
        self.coarse(self.nitrogen_value(dose))
    }

    /// A dose of nitrogen in the reader's unit, for axes of charts.
    pub fn nitrogen_value(&self, dose: AreaMass) -> f64 {
        if self.us() { dose.lb_acre() } else { dose.kg_ha() }
    }

    /// The unit of nitrogen on ground: "kg N/ha".
    pub fn nitrogen_unit_name(&self) -> String {
        self.shown(self.nitrogen_unit(), &[], Some((2.0, String::new()))).0.trim().to_owned()
    }

    const fn nitrogen_unit(&self) -> &'static str {
        match self.units {
            Units::Metric => "unit-kg-n-ha",
            Units::Us => "unit-lb-n-acre",
        }
    }

    /// "8 kg N/ha (2 to 20)"; the order of the ends does not matter.
    pub fn nitrogen_range(&self, middle: AreaMass, low: AreaMass, high: AreaMass) -> String {
        self.around(
            self.nitrogen(middle),
            &self.nitrogen_number(ends(low, high).0),
            &self.nitrogen_number(ends(low, high).1),
        )
    }

    /// A middle figure with its unit, and the ends of its range.
    pub fn around(&self, middle: String, low: &str, high: &str) -> String {
        self.say("range-around", &[("middle", middle), ("low", low.to_owned()), ("high", high.to_owned())])
    }

    /// A depth or gap that is measured by hand.
    pub fn depth(&self, depth: Length) -> String {
        if self.us() {
            let step = match depth.inches().abs() {
                inches if inches < 0.2 => 0.05,
                inches if inches < 1.0 => 0.25,
                _ => 0.5,
            };
            let inches = to_step(depth.inches(), step);
            self.unit("unit-in", inches, self.number(inches, 2))
        } else if depth.cm().abs() < 1.0 {
            self.unit("unit-mm", depth.mm(), self.number(depth.mm(), 0))
        } else {
            let step = if depth.cm().abs() < 5.0 { 0.5 } else { 1.0 };
            let cm = to_step(depth.cm(), step);
            self.unit("unit-cm", cm, self.number(cm, 1))
        }
    }

    /// A depth in fingers across, to halves.
    pub fn fingers(&self, depth: Length) -> String {
        let fingers = to_step(depth.m() / FINGER.m(), 0.5);
        let whole = fingers.floor();
        if fingers - whole < 0.25 {
            self.counted("unit-fingers", whole, self.number(whole, 0))
        } else if whole < 1.0 {
            self.label("unit-half-finger")
        } else {
            self.counted("unit-fingers-and-half", whole, self.number(whole, 0))
        }
    }

    /// A length on the ground.
    pub fn length(&self, length: Length) -> String {
        if self.us() {
            self.rounded_unit("unit-ft", length.feet())
        } else {
            self.rounded_unit("unit-m", length.m())
        }
    }

    /// Rain or water in depth.
    pub fn water(&self, depth: Length) -> String {
        if self.us() {
            self.unit("unit-in", depth.inches(), self.number(depth.inches(), 2))
        } else {
            self.unit("unit-mm", depth.mm(), self.number(depth.mm(), 0))
        }
    }

    /// An area.
    pub fn area(&self, area: Area) -> String {
        let (id, value) = if self.us() {
            if area.acres().abs() < 1.0 {
                ("unit-ft2", area.square_feet())
            } else {
                ("unit-acre", area.acres())
            }
        } else if area.ha().abs() < 1.0 {
            ("unit-m2", area.m2())
        } else {
            ("unit-ha", area.ha())
        };
        self.rounded_unit(id, value)
    }

    /// A loose volume of residue.
    pub fn volume(&self, volume: Volume) -> String {
        let (id, in_unit) = self.volume_unit(volume);
        self.rounded_unit(id, in_unit(volume))
    }

    /// "36 m³ (32 to 40)", all in the unit of the middle.
    pub fn volume_range(&self, middle: Volume, low: Volume, high: Volume) -> String {
        let (id, in_unit) = self.volume_unit(middle);
        self.around(
            self.rounded_unit(id, in_unit(middle)),
            &self.rounded(in_unit(low)),
            &self.rounded(in_unit(high)),
        )
    }

    fn volume_unit(&self, volume: Volume) -> (&'static str, fn(Volume) -> f64) {
        if self.us() {
            if volume.cubic_yards().abs() < 1.0 {
                ("unit-ft3", Volume::cubic_feet)
            } else {
                ("unit-yd3", Volume::cubic_yards)
            }
        } else if volume.m3().abs() < 1.0 {
            ("unit-l", Volume::litres)
        } else {
            ("unit-m3", Volume::m3)
        }
    }

    /// A volume of liquid.
    pub fn liquid(&self, volume: Volume) -> String {
        let (id, value) = if self.us() {
            if volume.us_gallons().abs() < 0.1 {
                ("unit-us-fluid-ounce", volume.us_gallons() * 128.0)
            } else {
                ("unit-us-gallon", volume.us_gallons())
            }
        } else if volume.litres().abs() < 1.0 {
            ("unit-ml", volume.litres() * 1_000.0)
        } else if volume.m3().abs() < 2.0 {
            ("unit-l", volume.litres())
        } else {
            ("unit-m3", volume.m3())
        };
        self.rounded_unit(id, value)
    }

    /// A bulk density; the text around it says whether wet or dry.
    pub fn density(&self, density: Density) -> String {
        if self.us() {
            self.rounded_unit("unit-lb-yd3", density.lb_yd3())
        } else {
            self.rounded_unit("unit-kg-m3", density.kg_m3())
        }
    }

    /// A temperature, in whole degrees.
    pub fn temperature(&self, temperature: Temperature) -> String {
        let (id, value) = if self.us() { ("unit-f", temperature.f()) } else { ("unit-c", temperature.c()) };
        self.unit(id, value, self.number(value, 0))
    }

    /// A share in per cent: whole, or "less than 1 %".
    pub fn percent(&self, share: Share) -> String {
        let percent = share.percent();
        if percent > 0.0 && percent < 0.5 {
            self.label("unit-percent-under-one")
        } else {
            self.unit("unit-percent", percent, self.number(percent, 0))
        }
    }

    /// A share in per cent with two significant digits, such as 0.35 %.
    pub fn percent_exact(&self, share: Share) -> String {
        self.rounded_unit("unit-percent", share.percent())
    }

    /// Milligrams of nitrogen in a litre of a container.
    pub fn nitrogen_per_litre(&self, mg_litre: f64) -> String {
        self.unit("unit-mg-n-l", mg_litre, self.coarse(mg_litre))
    }

    /// Hours.
    pub fn hours(&self, hours: f64) -> String {
        self.counted("unit-hours", hours, self.number(hours, 0))
    }

    /// Hours of work, to halves from one on; minutes below.
    pub fn hours_about(&self, hours: f64) -> String {
        if hours.abs() < 1.0 {
            let minutes = to_step(hours * 60.0, 5.0);
            return self.counted("unit-minutes", minutes, self.number(minutes, 0));
        }
        let step = if hours.abs() < 10.0 { 0.5 } else { 1.0 };
        self.counted("unit-hours", to_step(hours, step), self.number(to_step(hours, step), 1))
    }

    /// Days.
    pub fn days(&self, days: f64) -> String {
        self.counted("unit-days", days, self.number(days, 0))
    }

    /// Weeks.
    pub fn weeks(&self, weeks: f64) -> String {
        self.counted("unit-weeks", weeks, self.number(weeks, 1))
    }

    /// Months.
    pub fn months(&self, months: f64) -> String {
        self.counted("unit-months", months, self.number(months, 1))
    }

    /// Trees.
    #[allow(clippy::cast_precision_loss, reason = "trees are counted")]
    pub fn trees(&self, count: u64) -> String {
        self.counted("unit-trees", count as f64, self.number(count as f64, 0))
    }

    /// Years.
    pub fn years(&self, years: f64) -> String {
        self.counted("unit-years", years, self.number(years, 1))
    }

    /// "not within 1,095 days (12 % of the runs did)".
    pub fn not_within(&self, days: u32, share: Share) -> String {
        let days = self.days(f64::from(days));
        if share.fraction() > 0.0 {
            self.say("not-within", &[("days", days), ("share", self.percent(share))])
        } else {
            self.say("not-within-any", &[("days", days)])
        }
    }
}

fn ends(a: AreaMass, b: AreaMass) -> (AreaMass, AreaMass) {
    if a.kg_ha() <= b.kg_ha() { (a, b) } else { (b, a) }
}

/// The nearest multiple of a step.
pub(crate) fn to_step(value: f64, step: f64) -> f64 {
    (value / step).round() * step
}
