//! Nitrogen in decaying litter: Manzoni et al. 2008, Science 321:684-686 (constants restated in public
//! scripts). It describes litter on ground poor in nitrogen, and is the lower bound for sawdust in fed soil.

/// Decay of a litter by its first carbon to nitrogen.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Litter {
    initial: f64,
    efficiency: f64,
    critical: f64,
}

/// Nitrogen to carbon of the decomposers.
const DECOMPOSER: f64 = 0.1;

impl Litter {
    /// For a first carbon to nitrogen, above zero.
    pub fn of(carbon_nitrogen: f64) -> Self {
        let initial = 1.0 / carbon_nitrogen;
        let critical = 0.45 * libm::pow(initial, 0.76);
        Self { initial, efficiency: critical / DECOMPOSER, critical }
    }

    /// Part of the carbon used that becomes decomposer.
    pub fn efficiency(&self) -> f64 {
        self.efficiency
    }

    /// Carbon to nitrogen at which it starts to let nitrogen go.
    pub fn critical_carbon_nitrogen(&self) -> f64 {
        1.0 / self.critical
    }

    /// Nitrogen left, part of the first, when this part of the carbon is left.
    pub fn nitrogen_left(&self, carbon_left: f64) -> f64 {
        let k = DECOMPOSER / self.initial;
        carbon_left * k + (1.0 - k) * libm::pow(carbon_left, self.exponent())
    }

    /// Part of the carbon left when its nitrogen is greatest; 1 where it never gains.
    pub fn carbon_left_at_peak(&self) -> f64 {
        let k = DECOMPOSER / self.initial;
        let p = self.exponent();
        // Slope of nitrogen over carbon at the start: above zero means that nitrogen falls from the first day.
        if k + (1.0 - k) * p >= 0.0 {
            return 1.0;
        }
        libm::pow(k / ((k - 1.0) * p), 1.0 / (p - 1.0))
    }

    fn exponent(&self) -> f64 {
        1.0 / (1.0 - self.efficiency)
    }
}
