//! Entries of trials as sentences. None says what a plot got: whoever reads them may still have to score.

use kerfbook_ledger::kind::{PlotMeasured, PlotScored};
use kerfbook_ledger::{Body, Current, LedgerError};
use kerfbook_science::units::Share;

use super::Teller;

impl Teller<'_> {
    /// What an entry of a trial says.
    pub(super) fn trial(&self, kind: &str, current: &Current) -> Result<String, LedgerError> {
        let words = self.words;
        let whole = |number: usize| {
            let number = number as f64;
            words.say_count("plan-plots", number, &[("number", words.stated(number))])
        };
        let mut arguments = match &current.body {
            Body::TrialLaidOut(body) => vec![
                ("trial", body.label.as_str().to_owned()),
                ("plots", whole(body.plots.len())),
                ("design", words.label(&format!("plan-design-{}", body.design.name()))),
            ],
            _ => vec![("trial", self.label(current.subject)?)],
        };
        match &current.body {
            Body::PlotScored(body) => {
                arguments.extend(self.score(body));
                let id = if body.again { "entry-plot-scored-again" } else { "entry-plot-scored" };
                return Ok(words.say(id, &arguments));
            }
            Body::PlotMeasured(body) => {
                arguments.push(("plot", body.plot.to_string()));
                arguments.push(("figures", self.measured(body)));
            }
            Body::PlotLost(body) => {
                arguments.push(("plot", body.plot.to_string()));
                arguments.push(("reason", self.text(body.reason)?));
            }
            _ => {}
        }
        Ok(words.entry(kind, &arguments))
    }

    fn score(&self, body: &PlotScored) -> [(&'static str, String); 3] {
        [
            ("plot", body.plot.to_string()),
            ("yellow", self.words.percent(share(body.yellow_bp))),
            ("leaves", self.words.label(&format!("leaves-{}", body.layer.name()))),
        ]
    }

    fn measured(&self, body: &PlotMeasured) -> String {
        let words = self.words;
        let part = |id: &str, bp: u32| words.say(id, &[("share", words.percent(share(bp)))]);
        let read = [
            body.yield_g.map(|grams| words.say("plot-yield", &[("amount", self.amount(Some(grams), None))])),
            body.weed_bp.map(|bp| part("plot-weeds", bp)),
            body.moisture_bp.map(|bp| part("plot-moisture", bp)),
            body.stand.map(|plants| words.say("plot-stand", &[("number", words.stated(f64::from(plants)))])),
        ];
        let read: Vec<String> = read.into_iter().flatten().collect();
        if read.is_empty() { words.label("plot-nothing") } else { words.list(&read) }
    }
}

fn share(bp: u32) -> Share {
    Share::from_percent(f64::from(bp) / 100.0)
}
