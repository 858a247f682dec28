//! The cans, jars and tubs that things are sold in, and what one of them holds: the rows of `packs.csv`.

use std::collections::HashMap;
use std::sync::LazyLock;

use serde::Deserialize;

use crate::units::measures::measure;
use crate::units::{Literal, Mass, Reading, in_grams, literal};
use crate::vocabulary::table::{self, List};
use crate::vocabulary::{MeasureSystem, Portion};

#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "snake_case")]
enum OneIs {
    Taken,
    Asked,
}

#[derive(Deserialize)]
struct PackRow {
    id: String,
    pack: Portion,
    one: OneIs,
    us: Option<String>,
    elsewhere: Option<String>,
    others: List<String>,
}

/// One way in which a thing is sold.
#[derive(Clone, Debug, PartialEq)]
pub struct SoldIn {
    /// What it is sold in.
    pub pack: Portion,
    one: OneIs,
    us: Option<PackSize>,
    elsewhere: Option<PackSize>,
    others: Vec<PackSize>,
}

/// What one holds.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct PackSize {
    /// As it is printed.
    pub(crate) written: String,
    /// A weight or a volume.
    pub(crate) holds: Literal,
}

/// What an ounce of a thing is, where its line does not say which.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Ounces {
    /// One of the jug.
    Poured,
    /// One of the scale, and all of them.
    Weighed(Mass),
    /// Nobody can tell.
    Asked,
}

/// No can, jar or tub that is poured from is smaller: fewer ounces come out of a jigger or a jug (common practice, no source).
const SMALLEST_OZ: f64 = 6.0;
/// So far from whole packs an amount is still that of whole packs, as a share (ours: what a label rounds).
const SAME: f64 = 0.01;
/// Of more packs at once nobody writes the ounces (ours).
const MOST_PACKS: f64 = 12.0;

static PACKS: LazyLock<HashMap<String, Vec<SoldIn>>> = LazyLock::new(|| {
    let rows: Vec<PackRow> = table::rows("packs.csv", include_str!("data/packs.csv"));
    let mut all: HashMap<String, Vec<SoldIn>> = HashMap::new();
    rows.into_iter().for_each(|row| all.entry(row.id.clone()).or_default().push(sold_in(row)));
    all
});

/// The table is part of the program, and a test reads every row of it: it cannot fail where the tests passed.
fn sold_in(row: PackRow) -> SoldIn {
    let size = |text: &String| {
        let read = literal::parse(text).ok().filter(|read| matches!(read, Literal::Mass(_) | Literal::Volume(_)));
        let holds = read.unwrap_or_else(|| panic!("packs.csv: `{text}` of {} is no size", row.id));
        PackSize { written: text.clone(), holds }
    };
    SoldIn {
        pack: row.pack,
        one: row.one,
        us: row.us.as_ref().map(size),
        elsewhere: row.elsewhere.as_ref().map(size),
        others: row.others.iter().map(size).collect(),
    }
}

/// How the embedded ingredient of this id is sold.
pub(super) fn of(id: &str) -> &'static [SoldIn] {
    PACKS.get(id).map_or(&[], Vec::as_slice)
}

impl SoldIn {
    /// What one holds, and between what it lies where nobody has said in which country it was bought; none where there are too many
    /// sizes to take one.
    pub(crate) fn usual(&self, system: Option<MeasureSystem>) -> Option<(&PackSize, Option<&PackSize>)> {
        let (us, elsewhere) = (self.us.as_ref(), self.elsewhere.as_ref());
        let (here, there) = match system {
            Some(MeasureSystem::Us) => (us, elsewhere),
            _ => (elsewhere, us),
        };
        let other = there.filter(|_| system.is_none());
        Some((here.or(there)?, other)).filter(|_| self.one == OneIs::Taken)
    }

    /// Its sizes, the usual ones first.
    pub(crate) fn sizes(&self) -> impl Iterator<Item = &PackSize> {
        self.us.iter().chain(&self.elsewhere).chain(&self.others)
    }

    fn weights(&self) -> impl Iterator<Item = f64> {
        self.sizes().filter_map(|size| if let Literal::Mass(mass) = size.holds { Some(in_grams(mass)) } else { None })
    }

    /// Whether its label says a weight where a house works by these measures.
    fn is_sold_by_weight(&self, system: MeasureSystem) -> bool {
        let here = match system {
            MeasureSystem::Us => self.us.as_ref().or(self.elsewhere.as_ref()),
            _ => self.elsewhere.as_ref().or(self.us.as_ref()),
        };
        here.is_some_and(|size| matches!(size.holds, Literal::Mass(_)))
    }

    /// Whether so many grams are those of whole packs, of which one size is nearly always meant.
    fn are_whole(&self, weighed: f64) -> bool {
        let whole = |one: f64| {
            let count = (weighed / one).round();
            (1.0..=MOST_PACKS).contains(&count) && (weighed / one / count - 1.0).abs() < SAME
        };
        self.one == OneIs::Taken && self.weights().any(whole)
    }
}

/// How it is sold in this.
pub(crate) fn in_pack(packs: &[SoldIn], pack: Portion) -> Option<&SoldIn> {
    packs.iter().find(|known| known.pack == pack)
}

/// What the ounces of a line are. Of what is sold by weight the label says ounces too: as many as whole packs hold are those.
pub(crate) fn ounces(packs: &[SoldIn], written: &Reading) -> Ounces {
    let (Some(weighed), Some(settled)) = (written.of_solid(), written.settled) else { return Ounces::Poured };
    let smallest = SMALLEST_OZ * measure("oz wt").map_or(0.0, |ounce| ounce.factor);
    let mut by_weight = packs.iter().filter(|pack| pack.is_sold_by_weight(settled.system)).peekable();
    if by_weight.peek().is_none() || in_grams(weighed) < (1.0 - SAME) * smallest {
        return Ounces::Poured;
    }
    let is_whole = by_weight.any(|pack| pack.are_whole(in_grams(weighed)));
    if is_whole { Ounces::Weighed(weighed) } else { Ounces::Asked }
}
