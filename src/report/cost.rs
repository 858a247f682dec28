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
    /// Cautions that say stop.
    pub stops: Vec<CautionView>,
}

/// What a batch costs; money before tax, as a decimal text to the coin.
#[derive(Clone, Debug, Serialize)]
pub struct BatchCostView {
    /// The currency of every figure.
    pub currency: Currency,
    /// What is bottled.
    #[serde(rename = "yield")]
    pub yields: AmountView,
    /// The sum of the lines.
    pub batch: Money,
    /// The taxes that are known.
    pub tax_apart: Money,
    /// Whether everything has a cost; if not, every figure is at least as high as it says.
    pub complete: bool,
    /// Of a litre; null for what is dried.
    pub per_litre: Option<Money>,
    /// Of a kilogram.
    pub per_kg: Option<Money>,
    /// Of a bottle, where bottles are made.
    pub per_bottle: Option<Money>,
    /// Ingredients in card order, then labour, heat, bottles, duty.
    pub lines: Vec<CostLineView>,
    /// Measures of the bar, and the serving of the card last.
    pub measures: Vec<MeasureView>,
    /// Of a gram of sugar in it.
    pub per_gram_of_sugar: Option<ExactMoney>,
    /// Of a UK unit (10 ml of pure alcohol) in it.
    pub per_uk_unit: Option<ExactMoney>,
    /// What is lost on the way, inside the lines.
    pub lost: LostView,
    /// Where most of the money goes.
    pub most: Option<MostView>,
    /// Made or bought, where that was asked.
    pub against: Option<AgainstView>,
    /// A price for a measure, where one can be said.
    pub selling: Option<SellingView>,
    /// How figures are rounded.
    pub rounding: &'static str,
    /// What was taken for granted.
    pub assumed: Vec<String>,
}

/// One line of the cost.
#[derive(Clone, Debug, Serialize)]
pub struct CostLineView {
    /// What is paid for.
    pub of: String,
    /// What it is for.
    pub kind: CostKind,
    /// Grams that go in, of an ingredient.
    pub mass_g: Option<f64>,
    /// What it costs; null where that is not known.
    pub cost: Option<Money>,
    /// The tax on it, where its rate is known.
    pub tax: Option<Money>,
    /// The price and the yield that it rests on.
    pub basis: String,
    /// Of a usable kilogram, where not all can be used.
    pub per_usable_kg: Option<Money>,
    /// Why there is no cost.
    pub why_missing: Option<String>,
}

/// What one measure costs.
#[derive(Clone, Debug, Serialize)]
pub struct MeasureView {
    /// Millilitres.
    pub ml: f64,
    /// Its name, where it has one.
    pub name: Option<&'static str>,
    /// To the coin.
    pub cost: Money,
    /// Not rounded to the coin.
    pub cost_exact: ExactMoney,
}

/// What of the parts' cost is thrown away.
#[derive(Clone, Debug, Serialize)]
pub struct LostView {
    /// Bought and not usable.
    pub trimmed: Money,
    /// Liquid in strained solids.
    pub strained: Money,
    /// Pan and funnel.
    pub left_behind: Money,
}

/// The line that costs most.
#[derive(Clone, Debug, Serialize)]
pub struct MostView {
    /// The line.
    pub of: String,
    /// Its share of the batch.
    pub share: ShareOfMoney,
}

/// Made or bought.
#[derive(Clone, Debug, Serialize)]
pub struct AgainstView {
    /// Millilitres of the bought bottle.
    pub bottle_ml: f64,
    /// A bottle of that size.
    pub bottle: SidesView,
    /// A measure.
    pub measure: MeasureSides,
    /// A UK unit of alcohol.
    pub uk_unit: Option<SidesView>,
    /// The waste that is likely.
    pub waste: Option<WasteView>,
    /// From how many bottles a week making it pays.
    pub break_even_bottles_per_week: Option<f64>,
    /// Whether it never does.
    pub never_breaks_even: bool,
    /// What turns the answer.
    pub turns_on: Option<FlipView>,
}

/// Ours beside theirs.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct SidesView {
    /// Cost of ours.
    pub made: Money,
    /// Cost of theirs.
    pub bought: Money,
    /// What making it saves; below zero where it costs more.
    pub saving: Money,
}

/// A measure of both.
#[derive(Clone, Debug, Serialize)]
pub struct MeasureSides {
    /// Millilitres.
    pub ml: f64,
    /// Ours beside theirs.
    pub sides: SidesView,
}

/// The waste that batch, use and life make likely: an estimate.
#[derive(Clone, Debug, Serialize)]
pub struct WasteView {
    /// The share of a batch that is thrown away, 0 to 1.
    pub share: f64,
    /// A bottle of what is used.
    pub bottle: SidesView,
    /// What making it saves in a week.
    pub saving_per_week: Money,
}

/// The assumption that turns the answer with the least change.
#[derive(Clone, Debug, Serialize)]
pub struct FlipView {
    /// Which.
    #[serde(serialize_with = "assumption")]
    pub what: Assumption,
    /// What it is now: money a batch, or a share.
    pub now: ExactMoney,
    /// Where the answer turns.
    pub at: ExactMoney,
}

/// A price for a measure.
#[derive(Clone, Debug, Serialize)]
pub struct SellingView {
    /// Millilitres.
    pub ml: f64,
    /// What it costs.
    pub cost: Money,
    /// The price before tax.
    pub before_tax: Money,
    /// What the guest pays, where the tax is known.
    pub with_tax: Option<Money>,
    /// The share of the price before tax that stays.
    pub gross_profit: ShareOfMoney,
    /// The share of it that the cost takes.
    pub pour_cost: ShareOfMoney,
    /// What was added, as a share of the cost.
    pub markup: Option<ShareOfMoney>,
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
    const KEYS: &'static str = "currency yield batch tax_apart complete per_litre per_kg per_bottle lines measures per_gram_of_sugar per_uk_unit lost most against selling rounding assumed stops";

    fn stops(&self) -> bool {
        !self.stops.is_empty()
    }
}

impl View for BatchCostView {
    const VERB: &'static str = CostView::VERB;
    const KEYS: &'static str = CostView::KEYS.split_at(CostView::KEYS.len() - " stops".len()).0;
}

impl BatchCostView {
    /// The view of a costing, with what it was compared with and sold for.
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
            per_litre: maybe(c.per_litre),
            per_kg: maybe(c.per_kg),
            per_bottle: maybe(c.per_bottle),
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
            selling: sold.map(|SoldMeasure { ml, cost, selling: s }| SellingView {
                ml: *ml,
                cost: money(*cost),
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
