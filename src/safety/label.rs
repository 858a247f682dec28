//! What a strength label may be off by, and what a name asks for.

use std::sync::LazyLock;

use serde::Deserialize;

use crate::vocabulary::{Market, Scope, or_all, table, words};

/// To be printed with every figure of this file.
pub(crate) const CHECK_LOCALLY: &str = "check your local rule";

/// Grams of invert sugar that one gram of sucrose becomes: C₁₂H₂₂O₁₁ + H₂O → 2 C₆H₁₂O₆, ratio of molar masses
/// 360.31/342.30.
pub(crate) const INVERT_PER_SUCROSE: f64 = 360.31 / 342.30;
// as the ratio is printed, to four decimals
const _: () = assert!(INVERT_PER_SUCROSE > 1.05255 && INVERT_PER_SUCROSE < 1.05265);

words! {
    /// What a figure is about: by how much the strength may differ from the label, and above which the label must state
    /// it, in percent vol; the least strength of a name, in percent vol, and its least sugar, in g/L as invert sugar or in
    /// percent by mass; by how much a bottle may be short, in percent.
    LabelRuleKind, "kind of label rule":
    Tolerance = "tolerance",
    StatedFrom = "from_abv",
    MinimumAbv = "min_abv",
    MinimumSugar = "min_sugar",
    MinimumSugarByMass = "min_sugar_mass",
    Fill = "fill",
}

words! {
    /// Of which product a rule speaks.
    LabelProduct, "product of a label rule":
    AllDrinks = "all drinks",
    OtherDrinks = "other drinks",
    PlantsInBottle = "with macerated fruit or plants in the bottle",
    StrongBeer = "beer above 5.5 % vol, cider, fruit wine, mead",
    Beer = "beer up to 5.5 % vol",
    DistilledSpirits = "distilled spirits",
    SpiritDrink = "spirit drink",
    Liqueur = "liqueur",
    CordialOrLiqueur = "cordial or liqueur",
    CherryLiqueur = "cherry liqueur",
    GentianLiqueur = "gentian liqueur",
    Creme = "crème de …",
    CremeDeCassis = "crème de cassis",
    FillFrom1000 = "1000 ml and more",
    FillFrom376 = "376 to 999 ml",
    FillFrom101 = "101 to 375 ml",
    FillTo100 = "100 ml and less",
}

#[derive(Clone, Debug, Deserialize)]
pub(crate) struct LabelRule {
    pub market: Scope,
    pub kind: LabelRuleKind,
    pub product: LabelProduct,
    /// The figure, in the unit of its kind.
    pub value: f64,
}

pub(crate) fn all() -> &'static [LabelRule] {
    static RULES: LazyLock<Vec<LabelRule>> =
        LazyLock::new(|| table::rows("label-rules.csv", include_str!("data/label-rules.csv")));
    &RULES
}

/// The figures of one kind that hold in a market.
pub(crate) fn rules(market: Market, kind: LabelRuleKind) -> impl Iterator<Item = &'static LabelRule> {
    all().iter().filter(move |r| r.kind == kind && r.market.holds_in(market))
}

/// By how much the strength on a label may be off, for a drink that has plants or fruit in its bottle or not. No rule
/// known: `None`. "Macerated" is cautious here: only a drink that still contains them has the wide tolerance.
pub(crate) fn strength_tolerance(market: Market, contains_macerated: bool) -> Option<&'static LabelRule> {
    let wanted = match (market, contains_macerated) {
        (Market::Us, _) => LabelProduct::DistilledSpirits,
        (_, true) => LabelProduct::PlantsInBottle,
        (_, false) => LabelProduct::OtherDrinks,
    };
    rules(market, LabelRuleKind::Tolerance).find(|r| r.product == wanted)
}

/// Where no figure of a market is known here, the strength is stated from this on, % vol (ours).
const STATED_FROM_ABV: f64 = 0.5;

/// Whether one of these markets (none named: any) wants the strength on the label, or may.
pub(crate) fn states_strength(markets: &[Market], abv_pct: f64) -> bool {
    or_all(markets).iter().any(|&market| {
        let mut known = rules(market, LabelRuleKind::StatedFrom).peekable();
        match known.peek() {
            Some(_) => known.any(|rule| abv_pct > rule.value),
            None => abv_pct >= STATED_FROM_ABV,
        }
    })
}
