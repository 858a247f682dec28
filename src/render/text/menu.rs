//! A menu on one page: what is paid and what stays, what is in the glass, the allergens; and an event of it.

use std::collections::BTreeMap;

use crate::menu::{AllergenMark, TakenDown, is_within};
use crate::plan::findings::day_text;
use crate::report::caution::waiting;
use crate::report::menu::{EventView, MenuDrinkView, MenuReport, MenuView, WithoutView};
use crate::report::money::Money;
use crate::safety::Level;
use crate::units::display::{grouped, percent_text, short, span};

use super::table::{self, wrapped};

/// The page.
pub fn menu(report: &MenuReport) -> String {
    let Some(menu) = report.answer() else { return String::new() };
    let mut out = stops(menu) + &super::plan::left_out(&menu.left_out);
    if menu.drinks.is_empty() {
        return out;
    }
    let house = menu.house.as_ref().map_or_else(String::new, |name| format!("{name} · "));
    out.push_str(&format!("\n{house}menu of {}\n\n", count(menu.drinks.len(), "drink")));
    out.push_str(&money(menu));
    out.push('\n');
    out.push_str(&table::columns(&in_the_glass(menu, numbered)));
    out.push_str(&matrix(menu));
    out.push_str(&told(menu));
    out.extend(menu.without.iter().map(|gone| without(gone, menu.drinks.len())));
    // the plan of an event ends with the same note
    out + &menu.event.as_ref().map_or_else(|| wrapped("", menu.note), event)
}

fn count(n: usize, word: &str) -> String {
    format!("{n} {word}{}", if n == 1 { "" } else { "s" })
}

fn stops(menu: &MenuView) -> String {
    let of = |drink: &MenuDrinkView| -> String {
        let stops = drink.stops().map(|message| wrapped(&format!("STOP, {}: ", drink.of), message));
        let asked =
            drink.unidentified.iter().map(|open| wrapped(&format!("{}, first say: ", drink.of), &open.question));
        stops.chain(asked).collect()
    };
    menu.drinks.iter().map(of).collect()
}

/// Letters of a name in a table of 60 columns; whole in the list of allergens, in the table for the spreadsheet and in JSON.
const LETTERS: usize = 24;

/// "3 Honey old fashioned": the number is that of the allergens' columns.
fn numbered(place: usize, name: &str) -> String {
    let cut = name.chars().count() > LETTERS;
    let shown: String = name.chars().take(if cut { LETTERS - 1 } else { LETTERS }).collect();
    format!("{:>2} {shown}{}", place + 1, if cut { "…" } else { "" })
}

fn row(heads: &[&str]) -> Vec<String> {
    heads.iter().map(|head| (*head).to_owned()).collect()
}

fn money(menu: &MenuView) -> String {
    let [most, meant] = of_money(menu);
    let mut out = table::columns(&priced(menu, numbered));
    out.extend((!most.is_empty()).then(|| wrapped("  ", &most)));
    out + &wrapped("  ", &meant)
}

/// What is paid for each drink and what stays, under a head.
pub(in crate::render) fn priced(menu: &MenuView, named: impl Fn(usize, &str) -> String) -> Vec<Vec<String>> {
    let currency = menu.drinks.iter().find_map(|d| d.cost.or(d.price)).map_or("", |money| money.currency.code());
    let mut rows = vec![row(&[currency, "price", "pour", "earns", "a min"])];
    // what is not in the currency of the head says in which it is
    let coins = |money: Option<Money>| match money {
        Some(money) if money.currency.code() == currency => money.coins(),
        Some(money) => money.to_coin(),
        None => "-".to_owned(),
    };
    rows.extend(menu.drinks.iter().enumerate().map(|(place, drink)| {
        let by_margin = if drink.price.is_some() && drink.price_by_margin { "*" } else { "" };
        let pour =
            drink.pour_cost.map(|share| format!("{} %", grouped(share.0.try_into().unwrap_or(f64::NAN) * 100.0, 0)));
        vec![
            named(place, &drink.of),
            format!("{}{by_margin}", coins(drink.price)),
            pour.unwrap_or_else(|| "-".to_owned()),
            coins(drink.earns),
            coins(drink.earns_a_minute),
        ]
    }));
    rows
}

/// Which drink leaves most, and what the columns mean.
pub(in crate::render) fn of_money(menu: &MenuView) -> [String; 2] {
    let named = |said: &str, name: &Option<String>| name.as_ref().map(|name| format!("{said}: {name}"));
    let most = named("earns most a glass", &menu.earns_most);
    let most = most.into_iter().chain(named("most a minute of work", &menu.earns_most_a_minute));
    let most = most.collect::<Vec<_>>().join("; ");
    let mut meant =
        "pour: the share of the price without tax that the ingredients take; earns: what stays of it after the cost of the \
         glass, its work in that; a min: for each minute of the work on its card"
            .to_owned();
    if menu.drinks.iter().any(|drink| drink.price.is_some() && drink.price_by_margin) {
        meant.push_str("; * by the margin of the house, the menu has no price");
    }
    let unknown: Vec<&str> = menu.drinks.iter().filter(|d| !d.cost_complete).map(|d| d.of.as_str()).collect();
    if !unknown.is_empty() {
        meant.push_str(&format!("; not all has a price in {}", unknown.join(", ")));
    }
    let free = menu.drinks.iter().filter(|d| d.cost.is_some() && d.labour.is_none());
    let free: Vec<&str> = free.map(|d| d.of.as_str()).collect();
    if !free.is_empty() {
        meant.push_str(&format!("; no work is counted in {}", free.join(", ")));
    }
    [most, meant]
}

/// What is in each glass, under a head.
pub(in crate::render) fn in_the_glass(menu: &MenuView, named: impl Fn(usize, &str) -> String) -> Vec<Vec<String>> {
    let mut rows = vec![row(&["", "% vol", "UK units", "kcal"])];
    rows.extend(menu.drinks.iter().enumerate().map(|(place, drink)| {
        let range = |(low, high), decimals| span(low, high, decimals);
        vec![
            named(place, &drink.of),
            range(drink.abv_range_pct, 1),
            range(drink.uk_units_range, 2),
            range(drink.kcal_range, 0),
        ]
    }));
    rows
}

/// Columns for the marks of drinks on a page of 60.
const FOR_MARKS: usize = 36;

/// And for the names of the allergens, where none is longer.
const FOR_NAMES: usize = 20;

/// What the row of those is called that have none of their own.
pub(in crate::render) const EVERY_OTHER: &str = "every other";

/// The allergens with a row of their own, and those that share one, by their places. Where the house names its markets
/// their lists are shown whole. Of all lists together what no drink is known to hold shares a row, as far as every drink
/// has the same mark for it: what is open of one alone is never read off another.
pub(in crate::render) fn rows_apart(menu: &MenuView, drinks: &[MenuDrinkView]) -> (Vec<usize>, Vec<usize>) {
    let marks = |place: usize| -> Vec<Option<AllergenMark>> {
        drinks.iter().map(|drink| drink.matrix.get(place).map(|own| own.mark)).collect()
    };
    let is_in_some = |place: usize| marks(place).contains(&Some(AllergenMark::Contains));
    let rows = drinks.first().map_or(&[][..], |drink| &drink.matrix);
    let all = 0..rows.len();
    let first = all.clone().find(|place| !is_in_some(*place)).map(marks);
    let (shown, others) = all.partition(|place| !menu.markets.is_empty() || Some(marks(*place)) != first);
    // what another market of the house has under a wider name is one row with it, where no drink tells them apart
    let is_in = |place: usize, wide: usize| {
        let names = rows.get(place).zip(rows.get(wide));
        names.is_some_and(|(narrow, wide)| is_within(narrow.allergen, wide.allergen, &menu.markets))
    };
    let once = |mut places: Vec<usize>| {
        for place in places.clone() {
            if places.iter().any(|wide| *wide != place && marks(*wide) == marks(place) && is_in(place, *wide)) {
                places.retain(|other| *other != place);
            }
        }
        places
    };
    (once(shown), once(others))
}

fn matrix(menu: &MenuView) -> String {
    let mut out = String::new();
    // a space stands before each number
    let wide = menu.drinks.len().to_string().len().max(2) + 1;
    let listed = menu.drinks.first().map_or(&[][..], |drink| &drink.matrix);
    let shown = rows_apart(menu, &menu.drinks).0;
    let longest = shown.iter().filter_map(|at| listed.get(*at)).map(|row| row.allergen.chars().count()).max();
    let label = longest.map_or(FOR_NAMES, |most| most.max(FOR_NAMES));
    let abreast = (FOR_NAMES + FOR_MARKS - label) / wide;
    for (part, drinks) in menu.drinks.chunks(abreast).enumerate() {
        let numbers: String = (0..drinks.len()).map(|n| format!("{:>wide$}", part * abreast + n + 1)).collect();
        // the list of the names is far above a second table
        if menu.drinks.len() > abreast {
            let names = drinks.iter().enumerate().map(|(n, drink)| format!("{} {}", part * abreast + n + 1, drink.of));
            out.push_str(&wrapped("\n  ", &names.collect::<Vec<_>>().join(", ")));
        }
        let gap = if menu.drinks.len() > abreast { "" } else { "\n" };
        out.push_str(&format!("{gap}  {:<label$}{numbers}\n", "Allergens"));
        let rows = drinks.first().map_or(&[][..], |drink| &drink.matrix);
        let (shown, others) = rows_apart(menu, drinks);
        let mut line = |name: &str, place: usize| {
            let marks = drinks.iter().map(|drink| drink.matrix.get(place).map_or(' ', |mark| letter(mark.mark)));
            let marks: String = marks.map(|mark| format!("{mark:>wide$}")).collect();
            out.push_str(&format!("  {name:<label$}{marks}\n"));
        };
        let name = |place: usize| rows.get(place).map_or_else(String::new, |row| row.allergen.replace('_', " "));
        shown.iter().for_each(|place| line(&name(*place), *place));
        if let Some(first) = others.first() {
            line(EVERY_OTHER, *first);
            let names: Vec<String> = others.iter().map(|place| name(*place)).collect();
            out.push_str(&wrapped(&format!("  {EVERY_OTHER}: "), &names.join(", ")));
        }
    }
    out.push_str(&wrapped("  ", &legend(menu)));
    out.extend(menu.bottles_to_state.iter().map(|bottles| wrapped("  ? ", bottles)));
    for (place, drink) in menu.drinks.iter().enumerate() {
        out.push_str(&wrapped(&format!("  {:>2} {}: ", place + 1, drink.of), &drink.allergens.allergens_say));
    }
    out
}

/// What the marks mean, and whose lists they are of.
pub(in crate::render) fn legend(menu: &MenuView) -> String {
    let lists: Vec<String> = menu.markets.iter().map(ToString::to_string).collect();
    let of = if lists.is_empty() {
        "all markets, for the house names none (house.toml: market = [\"UK\"])".to_owned()
    } else {
        lists.join(", ")
    };
    let legend = "C contains it; ? not stated, so it may be in it; - none by what is stated: of a bought bottle its label in \
                  larder.toml, of plain foods and distilled spirits the list that is built in; by the lists of";
    format!("{legend} {of}")
}

pub(in crate::render) fn letter(mark: AllergenMark) -> char {
    match mark {
        AllergenMark::Contains => 'C',
        AllergenMark::NotStated => '?',
        AllergenMark::None => '-',
    }
}

/// What a guest has to be told, with the numbers of the drinks, and of which drinks not all is stated.
fn told(menu: &MenuView) -> String {
    let (said, open) = to_tell(menu);
    let mut out: String = said.iter().map(|(sign, said)| wrapped(&format!("  {sign} "), said)).collect();
    out.extend(open.map(|open| wrapped("  ? ", &format!("{open}: stillroom serve DRINK says what"))));
    out
}

/// The same as sentences: the cautions, each with the sign that it has at its drink; and of which drinks not all is stated.
pub(in crate::render) fn to_tell(menu: &MenuView) -> (Vec<(&'static str, String)>, Option<String>) {
    let mut said: BTreeMap<(Level, &str), Vec<String>> = BTreeMap::new();
    let mut open = Vec::new();
    for (place, drink) in menu.drinks.iter().enumerate() {
        let number = (place + 1).to_string();
        for caution in drink.cautions.iter().filter(|c| c.is_told_in_a_line()) {
            let of = said.entry((caution.severity, caution.brief)).or_default();
            if of.last() != Some(&number) {
                of.push(number.clone());
            }
        }
        open.extend((!waiting(&drink.cautions).is_empty()).then_some(number));
    }
    let sentence = |((severity, brief), of): (&(Level, &str), &Vec<String>)| {
        let sign = if *severity == Level::Note { "-" } else { "!" };
        (sign, format!("{brief} ({})", of.join(", ")))
    };
    let said = said.iter().map(sentence).collect();
    (said, (!open.is_empty()).then(|| format!("not all is stated of {}", open.join(", "))))
}

fn without(gone: &WithoutView, of: usize) -> String {
    let head = format!("\nWithout {}: ", gone.without);
    let lacking: Vec<String> =
        gone.undressed.iter().map(|drink| format!("{} ({})", drink.drink, drink.lacks)).collect();
    let lacking = (!lacking.is_empty()).then(|| format!("only as a garnish, in {}", lacking.join("; ")));
    if gone.drinks.is_empty() {
        return wrapped(&head, &lacking.unwrap_or_else(|| "nothing on the menu is made with it".to_owned()));
    }
    let way = |fallen: &TakenDown| match fallen.by_way_of.as_slice() {
        [] => fallen.drink.clone(),
        ways => format!("{} (by way of {})", fallen.drink, ways.join(", in it ")),
    };
    let all: Vec<String> = gone.drinks.iter().map(way).collect();
    let fallen = format!("{} of {of} drinks cannot be made: {}", gone.drinks.len(), all.join("; "));
    wrapped(&head, &[Some(fallen), lacking].into_iter().flatten().collect::<Vec<_>>().join("; "))
}

fn event(event: &EventView) -> String {
    let habit = |stated: bool| if stated { "" } else { " (common practice, no source)" };
    let said = format!(
        "{} guests for {} h at {} each an hour{}, and {} more in reserve{}: {} glasses, on {}{}",
        grouped(event.guests as f64, 0),
        short(event.hours),
        short(event.drinks_per_guest_and_hour),
        habit(event.drinks_per_guest_and_hour_stated),
        percent_text(event.reserve),
        habit(event.reserve_stated),
        grouped(event.glasses as f64, 0),
        day_text(event.on),
        if event.on_stated { "" } else { " (no day is stated: the first open one from two weeks ahead)" },
    );
    let rows = event.drinks.iter().map(|drink| {
        let is_out = event.plan.left_out.iter().any(|left| left.of == drink.of);
        let glasses = grouped(drink.glasses as f64, 0) + if is_out { ", left out" } else { "" };
        vec![drink.of.clone(), percent_text(drink.share), glasses]
    });
    let rows: Vec<Vec<String>> = rows.collect();
    let fallen = wrapped("", &format!("Not served: {}. The others take their share.", event.fallen.join(", ")));
    let fallen = if event.fallen.is_empty() { String::new() } else { fallen };
    let shelf = wrapped("", "What the board has on hand is counted, what the week takes of it until then is not.");
    format!(
        "{}{}{fallen}{shelf}{}",
        wrapped("\nEvent: ", &said),
        table::columns(&rows),
        super::plan::planned(&event.plan)
    )
}
