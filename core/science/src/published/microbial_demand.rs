//! Nitrogen that microbes need to use up residue: the worked-problem method of Iowa State University, Agron
//! 354 (read in the source).

/// Residue and how far it is used up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Residue {
    /// Dry mass, any unit; the results have the same.
    pub mass: f64,
    /// Carbon, part of the mass.
    pub carbon: f64,
    /// Nitrogen, part of the mass.
    pub nitrogen: f64,
    /// Part decomposed.
    pub decomposed: f64,
    /// Part of the decomposed carbon that goes into microbes.
    pub assimilated: f64,
    /// Carbon to nitrogen of the microbes.
    pub microbial_carbon_nitrogen: f64,
}

/// What becomes of its carbon and nitrogen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Demand {
    /// Carbon decomposed.
    pub carbon_decomposed: f64,
    /// Carbon in microbes.
    pub microbial_carbon: f64,
    /// Carbon given off.
    pub carbon_lost: f64,
    /// Nitrogen that the microbes need.
    pub needed: f64,
    /// Nitrogen that the residue lets go.
    pub released: f64,
    /// Nitrogen tied up; below zero it is given.
    pub tied: f64,
}

impl Residue {
    /// The method.
    pub fn demand(&self) -> Demand {
        let carbon_decomposed = self.mass * self.carbon * self.decomposed;
        let microbial_carbon = carbon_decomposed * self.assimilated;
        let needed = microbial_carbon / self.microbial_carbon_nitrogen;
        let released = self.mass * self.nitrogen * self.decomposed;
        Demand {
            carbon_decomposed,
            microbial_carbon,
            carbon_lost: carbon_decomposed - microbial_carbon,
            needed,
            released,
            tied: needed - released,
        }
    }
}
