//! What one piece, one fruit's juice, a sprig or a spoon of an ingredient weighs: the rows of `measures.csv`.

use std::sync::LazyLock;

use crate::units::{Mass, MassDensity, grams, in_grams, kg_per_m3};
use crate::vocabulary::table::{LongTable, Row};
use crate::vocabulary::{Evidence, Portion, Status};

/// What one of it weighs, and between what it lies.
#[derive(Clone, Debug, PartialEq)]
pub struct PortionWeight {
    /// What is counted.
    pub portion: Portion,
    /// Which of them: "grated", "with a peeler", "8 cm"; empty where there is only one.
    pub said: String,
    /// What one weighs.
    pub grams: Mass,
    /// The volume of one, where it was filled into a measure or poured, ml.
    pub ml: Option<f64>,
    /// What a light one weighs, where it is known.
    pub low: Option<Mass>,
    /// What a heavy one weighs, where it is known.
    pub high: Option<Mass>,
    /// Where the figure comes from.
    pub source: String,
    /// How it is known.
    pub status: Status,
}

impl PortionWeight {
    /// How far one may be from `grams`, each way; none where nobody has said.
    pub fn half_width(&self) -> Option<f64> {
        let (low, high) = (in_grams(self.low?), in_grams(self.high?));
        Some((high - low) / 2.0)
    }
}

/// The portions of an entry of the house: those of what it is like, but for what it states itself.
pub(super) fn of_entry(like: &[PortionWeight], piece: Option<Mass>, bulk: Option<MassDensity>) -> Vec<PortionWeight> {
    let of_house = piece.map(|grams| PortionWeight {
        portion: Portion::Piece,
        said: String::new(),
        grams,
        ml: None,
        low: None,
        high: None,
        source: "of this house".to_owned(),
        status: Evidence::MeasuredByTheHouse.into(),
    });
    let is_stated = |portion: Portion| match portion {
        Portion::Piece | Portion::Small | Portion::Medium | Portion::Large | Portion::ExtraLarge => piece.is_some(),
        Portion::Teaspoon | Portion::Tablespoon | Portion::FluidOunce | Portion::Jigger | Portion::Cup => {
            bulk.is_some()
        }
        _ => false,
    };
    of_house.into_iter().chain(like.iter().filter(|known| !is_stated(known.portion)).cloned()).collect()
}

static MEASURES: LazyLock<LongTable> =
    LazyLock::new(|| LongTable::read("measures.csv", include_str!("data/measures.csv")));

/// The embedded portions of an ingredient, in the order of their table.
pub(super) fn built_in(id: &str) -> Vec<PortionWeight> {
    MEASURES.rows_of(id).map(|row| read(&row)).collect()
}

fn read(row: &Row<'_>) -> PortionWeight {
    let count = row.number("count").unwrap_or(1.0);
    let of_one = |column: &str| row.number(column).map(|all| all / count);
    let status = row.text("status");
    PortionWeight {
        portion: row.word("portion"),
        said: row.text("said").to_owned(),
        grams: grams(of_one("grams").unwrap_or_else(|| row.wrong("grams"))),
        ml: of_one("ml"),
        low: of_one("low_g").map(grams),
        high: of_one("high_g").map(grams),
        source: row.text("source").to_owned(),
        status: Status::parse(status).unwrap_or_else(|| row.wrong(status)),
    }
}

/// What a solid weighs as it lies: by the first measure of it that was filled, the larger measures first.
pub(super) fn bulk_density(portions: &[PortionWeight]) -> Option<MassDensity> {
    const FILLED: [Portion; 4] = [Portion::Millilitre, Portion::Cup, Portion::Tablespoon, Portion::Teaspoon];
    let filled = |portion: &Portion| portions.iter().find(|p| p.portion == *portion && p.ml.is_some());
    let measure = FILLED.iter().find_map(filled)?;
    measure.ml.map(|ml| kg_per_m3(1000.0 * in_grams(measure.grams) / ml))
}

/// What one of it weighs: of a juice what one fruit gives.
pub(super) fn piece(portions: &[PortionWeight]) -> Option<Mass> {
    const ONE: [Portion; 8] = [
        Portion::Piece,
        Portion::Medium,
        Portion::Juice,
        Portion::Stick,
        Portion::Pod,
        Portion::Stalk,
        Portion::Bag,
        Portion::Head,
    ];
    ONE.iter().find_map(|one| portions.iter().find(|p| p.portion == *one)).map(|p| p.grams)
}
