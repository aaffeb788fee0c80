//! What the chain takes for a length nobody measured or chose. What a code says is not here but in its book.

use survey::catalog::Catalog;

use crate::error::TradeError;

/// A default length in inches with two standard deviations, inches.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Term {
    /// The length.
    pub inches: f64,
    /// σ where the length was measured or read from a product's sheet.
    pub measured: f64,
    /// σ where this default stands in for it.
    pub assumed: f64,
}

impl Term {
    /// A term; all in inches.
    pub const fn new(inches: f64, measured: f64, assumed: f64) -> Self {
        Self { inches, measured, assumed }
    }
}

/// Defaults of the drain chain. [`DrainDefaults::trade`] holds ours; a catalog may bring its own.
#[derive(Clone, PartialEq, Debug)]
pub struct DrainDefaults {
    /// Counter top above the new floor.
    pub counter_height: Term,
    /// Counter thickness over an undermount or apron-front bowl.
    pub counter_thick: Term,
    /// Rim of a drop-in sink above the counter.
    pub rim: Term,
    /// Inside bowl depth: only its measured σ is used, for the depth must be known.
    pub bowl_depth: Term,
    /// Bottom of a steel bowl.
    pub shell_steel: Term,
    /// Bottom of a composite bowl.
    pub shell_composite: Term,
    /// Bottom of a fireclay bowl.
    pub shell_fireclay: Term,
    /// Bottom of a cast-iron bowl.
    pub shell_cast_iron: Term,
    /// Bowl underside to the bottom of the strainer body.
    pub drop_strainer: Term,
    /// Bowl underside to the disposer's outlet centerline, from its sheet.
    pub drop_disposer: Term,
    /// The same while no disposer is chosen.
    pub drop_disposer_open: Term,
    /// Trap assembly below a strainer.
    pub trap_drop_strainer: Term,
    /// Trap assembly below a disposer.
    pub trap_drop_disposer: Term,
    /// Fall between trap and stub: only its σ is used.
    pub fall: Term,
    /// Level distance from trap to stub.
    pub trap_run: Term,
    /// Stub reading: only its assumed σ is used, where the plane it was read from is not known.
    pub stub: Term,
    /// Toe kick, floor to cabinet underside.
    pub toe_kick: Term,
    /// Thickness of the cabinet floor.
    pub cabinet_floor: Term,
    /// Rise of the finished floor.
    pub floor_buildup: Term,
    /// Seal of an unmodified trap.
    pub seal: f64,
    /// Room kept under the trap.
    pub service: f64,
}

impl DrainDefaults {
    /// Common practice without a published source.
    pub const fn trade() -> Self {
        Self {
            // 36 in is on general web pages; 34 (accessible) to 38 occur.
            counter_height: Term::new(36.0, 0.125, 0.25),
            // 1-3/16 for 3 cm stone; 25/32 for 2 cm, 1-1/2 laminate.
            counter_thick: Term::new(1.1875, 0.0625, 0.125),
            // 1/16 steel to 1/2 cast iron or fireclay.
            rim: Term::new(0.25, 0.0625, 0.125),
            // 5-1/2 to 12 occur; 8 drop-in, 9 undermount, 10 apron-front are usual.
            bowl_depth: Term::new(9.0, 0.0625, 0.75),
            shell_steel: Term::new(0.0625, 0.0625, 0.125),
            shell_composite: Term::new(0.375, 0.0625, 0.125),
            shell_fireclay: Term::new(0.75, 0.0625, 0.125),
            shell_cast_iron: Term::new(0.375, 0.0625, 0.125),
            // 2-1/2 to 4 occur, read as two σ either way.
            drop_strainer: Term::new(3.0, 0.125, 0.375),
            // 4 to 8 occur; partly from memory: the product's sheet decides.
            drop_disposer: Term::new(6.5, 0.125, 0.75),
            // The range 4 to 8 read as two σ, its mean taken near 5-1/2: judgment; ask for the sheet.
            drop_disposer_open: Term::new(5.5, 0.125, 1.0),
            // 1 to 2 occur.
            trap_drop_strainer: Term::new(1.5, 0.375, 0.5),
            // Elbow and slip joint into the bend; 2 to 4 occur.
            trap_drop_disposer: Term::new(3.0, 0.375, 0.5),
            fall: Term::new(0.0, 0.0625, 0.125),
            // Judgment; its error is in the σ of the fall.
            trap_run: Term::new(18.0, 0.0, 0.0),
            stub: Term::new(18.0, 0.125, 0.25),
            // Usual American base cabinet: judgment.
            toe_kick: Term::new(4.5, 0.125, 0.25),
            cabinet_floor: Term::new(0.75, 0.0625, 0.125),
            // No new floor unless the plan says so: judgment.
            floor_buildup: Term::new(0.0, 0.125, 0.25),
            // 2 to 4 are allowed: the books hold both.
            seal: 2.25,
            service: 1.0,
        }
    }

    /// The defaults of a catalog.
    ///
    /// # Errors
    /// Names the first id that is absent.
    pub fn of_catalog(catalog: &Catalog) -> Result<Self, TradeError> {
        Self::from_table(|id| {
            let default = catalog.drain_defaults.get(id)?;
            Some((default.length.inches(), default.sigma_measured, default.sigma_assumed))
        })
    }

    /// Defaults from a table, asked by id: `look_up` gives (inches, σ measured, σ assumed).
    ///
    /// # Errors
    /// Names the first id that is absent or not finite.
    pub fn from_table(look_up: impl Fn(&str) -> Option<(f64, f64, f64)>) -> Result<Self, TradeError> {
        let term = |id: &'static str| {
            look_up(id)
                .filter(|(a, b, c)| a.is_finite() && b.is_finite() && c.is_finite())
                .map(|(inches, measured, assumed)| Term { inches, measured, assumed })
                .ok_or(TradeError::NoDefault { id })
        };
        Ok(Self {
            counter_height: term("counter-height")?,
            counter_thick: term("counter-thick")?,
            rim: term("rim-drop-in")?,
            bowl_depth: term("bowl-depth-undermount")?,
            shell_steel: term("shell-steel")?,
            shell_composite: term("shell-composite")?,
            shell_fireclay: term("shell-fireclay")?,
            shell_cast_iron: term("shell-cast-iron")?,
            drop_strainer: term("drop-strainer")?,
            drop_disposer: term("drop-disposer")?,
            drop_disposer_open: term("drop-disposer-open")?,
            trap_drop_strainer: term("trap-drop-strainer")?,
            trap_drop_disposer: term("trap-drop-disposer")?,
            fall: term("fall")?,
            trap_run: term("trap-run")?,
            stub: term("stub-height")?,
            toe_kick: term("toe-kick")?,
            cabinet_floor: term("cabinet-floor")?,
            floor_buildup: term("floor-buildup")?,
            seal: term("trap-seal")?.inches,
            service: Self::trade().service,
        })
    }
}
