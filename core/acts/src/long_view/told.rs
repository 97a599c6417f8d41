//! The long view in sentences: the answer, what it rests on, and what it does not promise.

use kerfbook_science::soil_carbon::residue::Ends;
use kerfbook_science::soil_carbon::{EQUAL_MASS, GAINS_END, rothc};
use kerfbook_science::units::AreaMass;
use kerfbook_words::Words;

use super::LongView;

/// An amount by area with its ends, in t/ha.
pub fn amount(of: Ends, words: &Words) -> String {
    let dose = AreaMass::from_t_ha;
    words.area_mass_range(dose(of.typical), dose(of.low), dose(of.high))
}

impl LongView {
    /// All of it, the answer first.
    pub fn told(&self, words: &Words) -> Vec<String> {
        let Some(last) = self.last() else { return Vec::new() };
        let years = |years: u32| words.years(f64::from(years));
        let carbon = ("carbon", amount(last.carbon, words));
        let often = match self.practice.every {
            1 => words.label("carbon-every-year"),
            every => words.say("carbon-every", &[("years", years(every))]),
        };
        let values = [("often", often), carbon, ("years", years(last.year))];
        let mut said = vec![words.say("carbon-answer", &values)];
        let dry = ("dry", words.area_mass(self.dry));
        let until = ("last", words.date_with_year(self.of.1));
        said.push(if self.loads == 1 {
            words.say("carbon-of-one", &[until, dry])
        } else {
            let first = ("first", words.date_with_year(self.of.0));
            words.say("carbon-of", &[("loads", self.loads.to_string()), first, until, dry])
        });
        said.push(words.say("carbon-humus", &[("humus", amount(last.humus, words))]));
        said.push(words.say(
            "carbon-now",
            &[("stock", words.area_mass(self.stock)), ("depth", words.depth(self.depth))],
        ));
        let gains = ("source", words.body_and_year(&GAINS_END));
        if let Some(share) = self.in_first_half() {
            said.push(words.say("carbon-levels-off", &[("share", words.percent(share)), gains.clone()]));
        }
        if let Some(share) = self.lost_when_stopped() {
            let values = [("stops", years(self.stops)), ("share", words.percent(share)), gains];
            said.push(words.say("carbon-stops", &values));
        }
        if last.carbon.typical > self.stock.t_ha() {
            said.push(words.label("carbon-more-than-soil"));
        }
        said.push(words.say("carbon-equal-mass", &[("source", words.body_and_year(&EQUAL_MASS))]));
        if self.on_top {
            said.push(words.label("carbon-on-top"));
        }
        said.push(words.say("carbon-band", &[("source", words.body_and_year(&rothc::COLEMAN))]));
        said.push(words.label("carbon-no-promise"));
        said
    }
}
