//! How the properties of a liquid are shown: the lines of a sheet, and what is counted of those that carry an uncertainty.

use crate::units::display::grouped;

use super::{Equation, Properties, TargetKind, acidity, equations};

/// One line of a sheet: label, number, what follows it.
pub(crate) struct Property {
    pub label: &'static str,
    /// Its number among those of a liquid.
    pub value: fn(&Properties) -> Option<f64>,
    pub decimals: usize,
    /// A number below this is not shown.
    pub least: f64,
    pub before: &'static str,
    /// Stands after the number and its uncertainty.
    pub after: &'static str,
    /// What stands before and after the number where there is no column for its name.
    pub in_a_line: [&'static str; 2],
    /// What else there is to say of it.
    pub remark: fn(&Properties) -> String,
    /// Whether it is said that the number is not known.
    pub said_unknown: fn(&Properties) -> bool,
    /// What a card calls it that aims at it.
    pub target: Option<TargetKind>,
    /// How its uncertainty is counted, where it has one.
    pub headline: Option<Headline>,
}

/// A number that carries an uncertainty: an amount of something in a whole.
#[derive(Debug)]
pub struct Headline {
    /// The unit of the number.
    pub unit: &'static str,
    /// The name of its equation.
    equation: &'static str,
    /// What is counted, with its unit.
    pub counts: &'static str,
    /// Whether the whole is a mass; else it is a volume at 20 °C.
    pub in_mass: bool,
    /// Half-width at 95 % of the equations themselves from known masses, by the value.
    pub error: fn(f64) -> f64,
}

impl Headline {
    const fn new(unit: &'static str, equation: &'static str, counts: &'static str, error: fn(f64) -> f64) -> Self {
        Self { unit, equation, counts, in_mass: false, error }
    }

    pub(crate) fn equation(&self) -> &'static Equation {
        equations().iter().find(|own| own.name == self.equation).expect("every headline has an equation")
    }
}

impl Property {
    const fn new(label: &'static str, value: fn(&Properties) -> Option<f64>, decimals: usize) -> Self {
        Self {
            label,
            value,
            decimals,
            least: f64::NEG_INFINITY,
            before: "",
            after: "",
            in_a_line: ["", ""],
            remark: |_| String::new(),
            said_unknown: |_| false,
            target: None,
            headline: None,
        }
    }
}

/// The lines of a sheet in their order.
pub(crate) static SHEET: [Property; 9] = [
    Property {
        least: 0.05,
        remark: refractometer,
        in_a_line: ["", " °Bx"],
        target: Some(TargetKind::Brix),
        headline: Some(Headline { in_mass: true, ..Headline::new("°Bx", "brix", "g of dissolved solids", |_| 0.0) }),
        ..Property::new("Brix", |p| p.brix, 1)
    },
    Property {
        least: 0.005,
        after: " %",
        remark: |p| p.us_proof.map_or_else(String::new, |x| format!(" (US proof {})", grouped(x, 1))),
        in_a_line: ["", " % ABV"],
        target: Some(TargetKind::Abv),
        headline: Some(Headline::new("% vol", "abv", "ml of pure alcohol", |_| 0.05)),
        ..Property::new("ABV", |p| p.abv_pct, 1)
    },
    Property {
        least: 0.5,
        after: " g/L",
        in_a_line: ["sugar ", " g/L"],
        target: Some(TargetKind::Sugar),
        headline: Some(Headline::new("g/L", "sugar", "g of sugars", |value| 0.001 * value)),
        ..Property::new("sugar", |p| p.sugar_g_l, 0)
    },
    Property {
        least: 0.05,
        after: " g/L titratable, as citric",
        in_a_line: ["acid ", " g/L"],
        target: Some(TargetKind::Acid),
        headline: Some(Headline::new("g/L", "titratable acidity", "g of titratable acid, as citric,", |value| {
            0.001 * value
        })),
        ..Property::new("acid", |p| p.acid_g_l, 1)
    },
    Property {
        remark: acidity::edges,
        in_a_line: ["pH ", ""],
        target: Some(TargetKind::Ph),
        ..Property::new("pH", |p| p.ph, 1)
    },
    Property {
        after: " kg/m³",
        remark: |p| format!(" at {}", p.temperature_text()),
        ..Property::new("density", |p| p.density_kg_m3, 1)
    },
    Property {
        said_unknown: |_| true,
        remark: |p| {
            p.water_activity_upper.map_or_else(String::new, |upper| format!(" (cautious {})", grouped(upper, 3)))
        },
        ..Property::new("water activity", |p| p.water_activity, 3)
    },
    Property {
        after: " °C",
        said_unknown: |p| p.density_kg_m3.is_some(),
        ..Property::new("boils at", |p| p.boiling_point_c, 1)
    },
    Property {
        before: "about ",
        after: " °C: no flame near it",
        ..Property::new("flash point", |p| p.flash_point_c, 0)
    },
];

fn refractometer(p: &Properties) -> String {
    let shows =
        p.refractometer_brix.map(|r| format!("a refractometer shows {} at {}", grouped(r, 1), p.temperature_text()));
    format!("   {}", shows.unwrap_or_else(|| "no refractometer reading can be given".to_owned()))
}

/// The property that a target aims at.
pub(crate) fn of_target(kind: TargetKind) -> &'static Property {
    SHEET.iter().find(|property| property.target == Some(kind)).expect("every target is a property")
}

/// The numbers that carry an uncertainty, and how it is counted.
pub fn headlines() -> impl Iterator<Item = (TargetKind, &'static Headline)> {
    SHEET.iter().filter_map(|property| property.target.zip(property.headline.as_ref()))
}
