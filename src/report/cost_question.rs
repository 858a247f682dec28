//! What is asked about the cost of a card, and the answer put together.

use chrono::NaiveDate;

use crate::assessment::{self, Which};
use crate::card::Card;
use crate::cost::{
    BoughtBottle, Comparison, CostAsked, Costing, Habits, Price, SellAsked, Tax, compare, cost_of, ingredient_meant,
    sell,
};
use crate::diagnostic::{Diagnostic, any_error};
use crate::house::House;
use crate::shelf_life::Draws;
use crate::solver::{Options, Solved, solve};
use crate::units::in_millilitres;

use super::Answer;
use super::caution::CautionView;
use super::cost::{BatchCostView, CostView};

/// What is asked about the cost of a card.
#[derive(Clone, Debug, Default)]
pub struct CostQuestion {
    /// How the card is solved.
    pub options: Options,
    /// Other prices than the larder's.
    pub prices: Vec<PriceOver>,
    /// The day on which the age of prices is counted.
    pub today: Option<NaiveDate>,
    /// A bought bottle to compare with.
    pub bought: Option<BoughtBottle>,
    /// How it is used.
    pub habits: Habits,
    /// The measure that is sold.
    pub sell: SellAsked,
}

/// A price over the larder's.
#[derive(Clone, Debug)]
pub struct PriceOver {
    pub(crate) part: String,
    pub(crate) price: Price,
    pub(crate) written: String,
}

impl CostView {
    /// Solves a card and costs it. `None` where it has no solution.
    pub fn of_card(card: &Card, house: &House, question: &CostQuestion, found: &mut Vec<Diagnostic>) -> Option<Self> {
        let outcome = solve(card, house, &question.options);
        // A size that the amounts do not make is an error, and what they make costs what it costs.
        let is_its_size = !any_error(&outcome.diagnostics);
        found.extend(outcome.diagnostics);
        let solved = outcome.solved?;
        let said = found.len();
        let (stops, unidentified) = assessment::stops(&solved, house);
        let stops = CautionView::all(&stops);
        let asked = CostAsked {
            prices: question.prices.iter().filter_map(|over| price_over(over, &solved, house, found)).collect(),
            today: question.today,
            makes: question.options.asked(card).filter(|_| is_its_size),
            serving_ml: solved.card.serving.map(|s| in_millilitres(s.value)),
            servings: card
                .pieces
                .filter(|_| question.options.size.is_none())
                .map(|pieces| pieces / card.serving_pieces.unwrap_or(1.0)),
        };
        // With a price of another part the answer would be of another question.
        if any_error(found.get(said..).unwrap_or_default()) {
            return Some(Self { batch: Answer(None), stops });
        }
        let (costing, of_prices) = cost_of(&solved, house, &asked);
        found.extend(of_prices);
        let batch = costing.map(|costing| {
            let compared = question.bought.and_then(|bought| {
                let habits = with_life(question.habits, &solved, house);
                against(&costing, bought, habits, house).map_err(|why| found.push(*why)).ok()
            });
            let sold = sell(&costing, house, question.sell, found);
            BatchCostView::new(&costing, compared.as_ref(), sold.as_ref())
        });
        found.extend(unidentified);
        Some(Self { batch: Answer(batch), stops })
    }
}

fn price_over(
    over: &PriceOver,
    solved: &Solved,
    house: &House,
    found: &mut Vec<Diagnostic>,
) -> Option<(String, Price, String)> {
    let ingredient = ingredient_meant(&over.part, &solved.ingredients(), house, found)?;
    Some((ingredient.id.clone(), over.price, over.written.clone()))
}

/// Where the life was not said: the days that it keeps in the store that it is planned for.
fn with_life(habits: Habits, solved: &Solved, house: &House) -> Habits {
    if habits.weekly.is_none() || habits.life_days.is_some() {
        return habits;
    }
    let (dated, _) = assessment::assess(solved, house, NaiveDate::default(), Which::Planned, Draws::default());
    Habits { life_days: dated.stores.get(dated.planned).and_then(|store| store.days), ..habits }
}

/// Like with like: what the house says of the tax in its prices holds for the bought one too.
fn against(
    costing: &Costing,
    bought: BoughtBottle,
    habits: Habits,
    house: &House,
) -> Result<Comparison, Box<Diagnostic>> {
    let of_house = house.settings.costs.prices.as_ref().and_then(|written| Tax::parse(&written.value).ok());
    compare(costing, &BoughtBottle { price: bought.price.or_tax(of_house.unwrap_or_default()), ..bought }, habits)
}
