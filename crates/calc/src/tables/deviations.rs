//! How sure start values are.

/// Start deviations of what is learned, all of the logarithm: how far a shop's own figures may lie
/// from the start values.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Deviations {
    /// Burn and wear: the shop.
    pub shop: f64,
    /// Burn and wear: the machine.
    pub machine: f64,
    /// Burn and wear: the family of the material.
    pub family: f64,
    /// Burn and wear: the grade.
    pub grade: f64,
    /// Burn and wear: the electrode's material.
    pub electrode: f64,
    /// Burn and wear: the family with a class of size.
    pub size_class: f64,
    /// Burn and wear: slope on the logarithm of the tube's diameter in mm.
    pub by_diameter: f64,
    /// Burn and wear: slope on the logarithm of depth over diameter, over 20.
    pub by_depth: f64,
    /// Burn and wear: from lot to lot.
    pub lot: f64,
    /// Correlation of burn and wear.
    pub burn_and_wear: f64,
    /// Handling: the shop.
    pub handling_shop: f64,
    /// Handling: the machine.
    pub handling_machine: f64,
    /// Handling: from lot to lot, within the two above as long as nothing was learned.
    pub handling_lot: f64,
    /// Gap: the shop.
    pub gap_shop: f64,
    /// Gap: the machine.
    pub gap_machine: f64,
    /// Gap: a class of size.
    pub gap_size_class: f64,
    /// Gap: from lot to lot, within the three above as long as nothing was learned.
    pub gap_lot: f64,
}

impl Deviations {
    /// Deviation of a lot's burn or wear before anything was learned.
    ///
    /// Formula: root of the sum of squares of shop, machine, family, grade, electrode, size class,
    /// lot, `by_diameter ln d` and `by_depth ln((L/d) / 20)`.
    ///
    /// - `tube_mm`: tube diameter d [mm], above 0.
    /// - `depth_mm`: depth L from one end [mm], 0 and up; a hole shallower than its diameter counts as
    ///   one diameter deep.
    ///
    /// Result: deviation of the logarithm [-].
    ///
    /// ```
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let start = shop::start_values().deviations;
    /// // At 1 mm and 20 diameters neither slope counts: the root of .35^2 + .15^2 + .30^2 + .20^2 +
    /// // .10^2 + .15^2 + .27^2 = 0.3804.
    /// assert!((start.process(1.0, 20.0) - 0.6168).abs() < 0.00005);
    /// // At 0.5 mm and 100 diameters (0.2 ln 2)^2 + (0.15 ln 5)^2 = 0.0775 more.
    /// assert!((start.process(0.5, 50.0) - 0.6767).abs() < 0.00005);
    /// ```
    ///
    /// Source: ours: deviations of causes that do not go together.
    #[must_use]
    pub fn process(&self, tube_mm: f64, depth_mm: f64) -> f64 {
        let by_diameter = self.by_diameter * libm::log(tube_mm);
        let by_depth = self.by_depth * libm::log((depth_mm / tube_mm).max(1.0) / 20.0);
        root_of_squares(&[
            self.shop,
            self.machine,
            self.family,
            self.grade,
            self.electrode,
            self.size_class,
            by_diameter,
            by_depth,
            self.lot,
        ])
    }

    /// Deviation of handling times before anything was learned.
    ///
    /// Formula: root of the sum of squares of shop and machine.
    ///
    /// Result: deviation of the logarithm [-].
    ///
    /// ```
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let start = shop::start_values().deviations;
    /// assert!((start.handling() - 0.4031).abs() < 0.00005); // of 0.35 and 0.20
    /// ```
    ///
    /// Source: ours: deviations of causes that do not go together.
    #[must_use]
    pub fn handling(&self) -> f64 {
        root_of_squares(&[self.handling_shop, self.handling_machine])
    }

    /// Deviation of a lot's gap before anything was learned.
    ///
    /// Formula: root of the sum of squares of shop, machine and size class.
    ///
    /// Result: deviation of the logarithm [-].
    ///
    /// ```
    /// # mod shop { include!(concat!(env!("CARGO_MANIFEST_DIR"), "/tests/shop/rows.rs")); }
    /// let start = shop::start_values().deviations;
    /// assert!((start.gap() - 0.3082).abs() < 0.00005); // of 0.25, 0.15 and 0.10
    /// ```
    ///
    /// Source: ours: deviations of causes that do not go together.
    #[must_use]
    pub fn gap(&self) -> f64 {
        root_of_squares(&[self.gap_shop, self.gap_machine, self.gap_size_class])
    }
}

fn root_of_squares(parts: &[f64]) -> f64 {
    libm::sqrt(parts.iter().map(|part| part * part).sum())
}
