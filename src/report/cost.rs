//! `cost`: what a batch costs, and whether to make it or to buy it.

use rust_decimal::Decimal;
use serde::{Serialize, Serializer};

use crate::cost::{Assumption, BreakEven, Comparison, CostKind, Costing, Currency, MeasureCost, Sides, SoldMeasure};

use super::caution::CautionView;
use super::money::{ExactMoney, Money, ShareOfMoney};
use super::parts::AmountView;
use super::{Answer, Report, View};

pub(crate) type CostReport = Report<CostView>;

/// What a batch costs, and what must not be made.
#[derive(Clone, Debug, Serialize)]
pub struct CostView {
    /// The batch; every key null where nothing can be added up.
    #[serde(flatten)]
    pub batch: Answer<BatchCostView>,
    pub(crate) stops: Vec<CautionView>,
}

/// What a batch costs; money before tax, as a decimal text to the coin.
#[derive(Clone, Debug, Serialize)]
pub struct BatchCostView {
    pub(crate) currency: Currency,
    #[serde(rename = "yield")]
    pub(crate) yields: AmountView,
    /// The sum of the lines.
    pub(crate) batch: Money,
    pub(crate) tax_apart: Money,
    /// Whether everything has a cost; if not, every figure is at least as high as it says.
    pub(crate) complete: bool,
    /// Whether the work is not in it.
    pub(crate) without_labour: bool,
    /// Of a litre; null for what is dried.
    pub(crate) per_litre: Option<Money>,
    pub(crate) per_kg: Option<Money>,
    pub(crate) per_bottle: Option<Money>,
    pub(crate) per_piece: Option<Money>,
    /// Ingredients in card order, then labour, heat, bottles, duty.
    pub(crate) lines: Vec<CostLineView>,
    pub(crate) measures: Vec<MeasureView>,
    pub(crate) per_gram_of_sugar: Option<ExactMoney>,
    pub(crate) per_uk_unit: Option<ExactMoney>,
    pub(crate) lost: LostView,
    pub(crate) most: Option<MostView>,
    pub(crate) against: Option<AgainstView>,
    pub(crate) selling: Option<SellingView>,
    pub(crate) rounding: &'static str,
    pub(crate) assumed: Vec<String>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct CostLineView {
    /// What is paid for.
    pub of: String,
    /// What it is for.
    pub kind: CostKind,
    /// Grams that go in, of an ingredient.
    pub mass_g: Option<f64>,
    pub(crate) cost: Option<Money>,
    pub(crate) tax: Option<Money>,
    pub(crate) basis: String,
    /// Of a usable kilogram, where not all can be used.
    pub(crate) per_usable_kg: Option<Money>,
    pub(crate) why_missing: Option<String>,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct MeasureView {
    pub(crate) ml: f64,
    pub(crate) name: Option<&'static str>,
    pub(crate) cost: Money,
    /// Not rounded to the coin.
    pub(crate) cost_exact: ExactMoney,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct LostView {
    pub(crate) trimmed: Money,
    pub(crate) strained: Money,
    pub(crate) left_behind: Money,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct MostView {
    /// The line.
    pub of: String,
    pub(crate) share: ShareOfMoney,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct AgainstView {
    pub(crate) bottle_ml: f64,
    pub(crate) bottle: SidesView,
    pub(crate) measure: MeasureSides,
    pub(crate) uk_unit: Option<SidesView>,
    pub(crate) waste: Option<WasteView>,
    pub(crate) break_even_bottles_per_week: Option<f64>,
    pub(crate) never_breaks_even: bool,
    pub(crate) turns_on: Option<FlipView>,
}

#[derive(Clone, Copy, Debug, Serialize)]
pub(crate) struct SidesView {
    pub(crate) made: Money,
    /// Cost of theirs.
    pub bought: Money,
    /// What making it saves; below zero where it costs more.
    pub(crate) saving: Money,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct MeasureSides {
    pub(crate) ml: f64,
    pub(crate) sides: SidesView,
}

/// The waste that batch, use and life make likely: an estimate.
#[derive(Clone, Debug, Serialize)]
pub(crate) struct WasteView {
    pub(crate) share: f64,
    pub(crate) bottle: SidesView,
    pub(crate) saving_per_week: Money,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct FlipView {
    #[serde(serialize_with = "assumption")]
    pub(crate) what: Assumption,
    /// Money a batch, or a share.
    pub(crate) now: ExactMoney,
    pub(crate) at: ExactMoney,
}

#[derive(Clone, Debug, Serialize)]
pub(crate) struct SellingView {
    pub(crate) ml: f64,
    pub(crate) cost: Money,
    /// What its ingredients cost of that: the shares below are by them.
    pub(crate) ingredients: Money,
    pub(crate) before_tax: Money,
    /// What the guest pays, where the tax is known.
    pub(crate) with_tax: Option<Money>,
    /// The share of the price before tax that stays.
    pub(crate) gross_profit: ShareOfMoney,
    /// The share of it that the ingredients take.
    pub(crate) pour_cost: ShareOfMoney,
    /// What was added, as a share of what they cost.
    pub(crate) markup: Option<ShareOfMoney>,
}

fn assumption<S: Serializer>(what: &Assumption, serializer: S) -> Result<S::Ok, S::Error> {
    serializer.serialize_str(match what {
        Assumption::Labour => "labour",
        Assumption::Part(of) => of,
        Assumption::Waste => "waste",
    })
}

impl Serialize for CostKind {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.word())
    }
}

impl View for CostView {
    const VERB: &'static str = "cost";
    const KEYS: &'static str = "currency yield batch tax_apart complete without_labour per_litre per_kg per_bottle per_piece lines measures per_gram_of_sugar per_uk_unit lost most against selling rounding assumed stops";

    fn stops(&self) -> bool {
        !self.stops.is_empty()
    }
}

impl View for BatchCostView {
    const VERB: &'static str = CostView::VERB;
    const KEYS: &'static str = CostView::KEYS.split_at(CostView::KEYS.len() - " stops".len()).0;
}

impl BatchCostView {
    pub(crate) fn new(c: &Costing, compared: Option<&Comparison>, sold: Option<&SoldMeasure>) -> Self {
        let money = |amount| Money { amount, currency: c.currency };
        let maybe = |amount: Option<Decimal>| amount.map(money);
        let exact = |amount: Option<Decimal>| amount.map(|amount| ExactMoney(money(amount)));
        let measure = |m: &MeasureCost| MeasureView {
            ml: m.ml,
            name: m.name,
            cost: money(m.cost),
            cost_exact: ExactMoney(money(m.cost)),
        };
        Self {
            currency: c.currency,
            yields: AmountView { mass_g: c.yield_g, volume_ml: c.yield_ml },
            batch: money(c.batch),
            tax_apart: money(c.tax),
            complete: c.complete,
            without_labour: c.without_labour,
            per_litre: maybe(c.per_litre),
            per_kg: maybe(c.per_kg),
            per_bottle: maybe(c.per_bottle),
            per_piece: maybe(c.per_piece),
            lines: c
                .lines
                .iter()
                .map(|l| CostLineView {
                    of: l.of.clone(),
                    kind: l.kind,
                    mass_g: l.grams,
                    cost: maybe(l.cost),
                    tax: maybe(l.tax),
                    basis: l.basis.clone(),
                    per_usable_kg: maybe(l.per_usable_kg),
                    why_missing: l.why_missing.clone(),
                })
                .collect(),
            measures: c.measures.iter().chain(&c.serving).map(measure).collect(),
            per_gram_of_sugar: exact(c.per_gram_of_sugar),
            per_uk_unit: exact(c.per_uk_unit),
            lost: LostView {
                trimmed: money(c.losses.trimmed),
                strained: money(c.losses.strained),
                left_behind: money(c.losses.left_behind),
            },
            most: c.most.as_ref().map(|(of, share)| MostView { of: of.clone(), share: ShareOfMoney(*share) }),
            against: compared.map(|x| AgainstView::new(x, c.currency)),
            selling: sold.map(|SoldMeasure { ml, cost, ingredients, selling: s }| SellingView {
                ml: *ml,
                cost: money(*cost),
                ingredients: money(*ingredients),
                before_tax: money(s.net),
                with_tax: maybe(s.with_tax),
                gross_profit: ShareOfMoney(s.gross_profit),
                pour_cost: ShareOfMoney(s.pour_cost),
                markup: s.markup.map(ShareOfMoney),
            }),
            rounding: "each line to the smallest coin, halves away from zero; a total is the sum of its rounded lines",
            assumed: c.assumed.clone(),
        }
    }
}

impl AgainstView {
    fn new(x: &Comparison, currency: Currency) -> Self {
        let money = |amount| Money { amount, currency };
        let sides = |s: &Sides| SidesView { made: money(s.ours), bought: money(s.theirs), saving: money(s.saving()) };
        Self {
            bottle_ml: x.bottle_ml,
            bottle: sides(&x.bottle),
            measure: MeasureSides { ml: x.measure.0, sides: sides(&x.measure.1) },
            uk_unit: x.uk_unit.as_ref().map(sides),
            waste: x.waste.map(|w| WasteView {
                share: w.share,
                bottle: sides(&w.bottle),
                saving_per_week: money(w.per_week),
            }),
            break_even_bottles_per_week: match x.break_even {
                BreakEven::PerWeek(bottles) => Some(bottles),
                BreakEven::Never | BreakEven::NoLife => None,
            },
            never_breaks_even: x.break_even == BreakEven::Never,
            turns_on: x.flip.as_ref().map(|f| FlipView {
                what: f.what.clone(),
                now: ExactMoney(money(f.now)),
                at: ExactMoney(money(f.at)),
            }),
        }
    }
}
