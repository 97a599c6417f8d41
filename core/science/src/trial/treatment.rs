//! Treatments that can be compared: each with the same nitrogen, and one that tells lock-up from other causes.

use crate::units::AreaMass;

/// What a treatment brings.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Treatment {
    /// The residue that it puts down, by name; `None` for none.
    pub residue: Option<String>,
    /// Nitrogen that it brings in all; `None` where nobody said.
    pub nitrogen: Option<AreaMass>,
    /// Whether it gets more nitrogen than the crop can miss: the reference plot.
    pub ample: bool,
}

/// What each lacks to the nitrogen of the one that brings most; nothing for reference plots and those not told.
///
/// Where treatments bring unequal nitrogen, nobody can say whether the residue did it or the nitrogen.
pub fn top_ups(treatments: &[Treatment]) -> Vec<Option<AreaMass>> {
    let own = |treatment: &Treatment| treatment.nitrogen.filter(|_| !treatment.ample);
    let most = treatments.iter().filter_map(own).map(AreaMass::kg_ha).fold(0.0, f64::max);
    treatments.iter().map(|t| own(t).map(|brought| AreaMass::from_kg_ha(most - brought.kg_ha()))).collect()
}

/// Residues that no treatment puts down with ample nitrogen. A plot with the same residue and ample nitrogen beside the
/// treated one tells lock-up of nitrogen from other causes of yellowing.
pub fn without_reference(treatments: &[Treatment]) -> Vec<&str> {
    let ample = |residue: &str| {
        treatments.iter().any(|other| other.ample && other.residue.as_deref() == Some(residue))
    };
    let mut lacking: Vec<&str> = treatments
        .iter()
        .filter_map(|treatment| treatment.residue.as_deref())
        .filter(|own| !ample(own))
        .collect();
    lacking.dedup();
    lacking
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn all_come_to_the_most_but_the_reference() {
        let of = |residue: Option<&str>, kg_ha: Option<f64>, ample| Treatment {
            residue: residue.map(str::to_owned),
            nitrogen: kg_ha.map(AreaMass::from_kg_ha),
            ample,
        };
        let treatments = [
            of(None, Some(0.0), false),
            of(Some("chips"), Some(30.0), false),
            of(Some("bark"), None, false),
            of(Some("chips"), Some(150.0), true),
        ];
        let lacks: Vec<Option<f64>> = top_ups(&treatments).iter().map(|kg| kg.map(AreaMass::kg_ha)).collect();
        assert_eq!(lacks, [Some(30.0), Some(0.0), None, None]);
        assert_eq!(without_reference(&treatments), ["bark"]);
    }
}
