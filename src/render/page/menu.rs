//! The menu: what is in each glass, which allergen is in which, whom to tell what.

use crate::diagnostic::Topic;
use crate::menu::AllergenMark;
use crate::render::html::escaped;
use crate::render::text::menu as words;
use crate::report::menu::{MenuDrinkView, MenuReport, MenuView};

use super::sheet::{SheetHtml, unsolved};
use super::{findings, list, paragraphs, rows, section, warning};

/// The menu; `place` is where a drink of it stands on the page. What a guest pays is left out with all other prices: by the
/// margin of the house, it would tell the cost.
pub(crate) fn menu(report: &MenuReport, with_costs: bool, place: impl Fn(&str) -> Option<String>) -> SheetHtml {
    let Some(view) = report.answer() else { return unsolved(report) };
    let stops: String = view.drinks.iter().map(stops).collect();
    let (told, open) = words::to_tell(view);
    let warnings: String = told.iter().map(|(sign, said)| warning(sign, said)).collect();
    let open = open.map(|open| warning("?", &format!("{open}: its page says what")));
    let bottles = view.bottles_to_state.iter().map(|bottles| warning("?", bottles));
    let found = report.findings().iter().filter(|finding| with_costs || finding.code.topic() != Topic::Cost);
    let rest = [
        section("Drinks", &links(view, place), &table(&words::in_the_glass(view, numbered))),
        section("Allergens", &(matrix(view) + &bottles.collect::<String>()), &of_each(view)),
        section("To tell", &warnings, &open.unwrap_or_default()),
        if with_costs { money(view) } else { String::new() },
    ];
    // a drink that is left out is said before those that are there
    let top = format!("{stops}<h2>Menu</h2>\n{}", findings(found));
    let rest = if view.drinks.is_empty() { String::new() } else { rest.concat() };
    SheetHtml { top, rest, long: false }
}

fn stops(drink: &MenuDrinkView) -> String {
    let stops =
        drink.stops().map(|stop| format!("<p class=\"stop\">STOP, {}: {}</p>\n", escaped(&drink.of), escaped(stop)));
    let asked = drink.unidentified.iter().map(|asked| warning(&format!("{}, first say:", drink.of), &asked.question));
    stops.chain(asked).collect()
}

/// "3 Honey old fashioned": the number is that of the allergens' columns.
fn numbered(place: usize, name: &str) -> String {
    format!("{} {name}", place + 1)
}

/// The drinks, each by its own page where it has one.
fn links(view: &MenuView, place: impl Fn(&str) -> Option<String>) -> String {
    let linked = |drink: &MenuDrinkView| match place(&drink.of) {
        Some(place) => format!("<li><a href=\"#{place}\">{}</a></li>\n", escaped(&drink.of)),
        None => format!("<li>{}</li>\n", escaped(&drink.of)),
    };
    format!("<ol class=\"links\">\n{}</ol>\n", view.drinks.iter().map(linked).collect::<String>())
}

fn table(all: &[Vec<String>]) -> String {
    all.split_first().map_or_else(String::new, |(head, lines)| rows(head, lines))
}

fn matrix(view: &MenuView) -> String {
    let listed = view.drinks.first().map_or(&[][..], |drink| &drink.matrix);
    let numbers: String = (1..=view.drinks.len()).map(|number| format!("<th scope=\"col\">{number}</th>")).collect();
    let row = |place: usize, name: &str| {
        let marks = view.drinks.iter().filter_map(|drink| drink.matrix.get(place));
        let marks = marks.map(|of| {
            let class = match of.mark {
                AllergenMark::Contains => "contains",
                AllergenMark::NotStated => "open",
                AllergenMark::None => "none",
            };
            format!("<td class=\"{class}\">{}</td>", words::letter(of.mark))
        });
        format!("<tr><th scope=\"row\">{}</th>{}</tr>\n", escaped(name), marks.collect::<String>())
    };
    let name = |place: usize| listed.get(place).map_or_else(String::new, |row| row.allergen.replace('_', " "));
    let (shown, others) = words::rows_apart(view, &view.drinks);
    let mut body: String = shown.iter().map(|place| row(*place, &name(*place))).collect();
    body.extend(others.first().map(|place| row(*place, words::EVERY_OTHER)));
    let names: Vec<String> = others.iter().map(|place| name(*place)).collect();
    let others = (!names.is_empty()).then(|| format!("{}: {}", words::EVERY_OTHER, names.join(", ")));
    format!(
        "<p>{}</p>\n<div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"Allergens of each drink\">\
         <table class=\"matrix\">\n<thead><tr><td></td>{numbers}</tr></thead>\n<tbody>\n{body}</tbody>\n</table></div>\n",
        escaped(&words::legend(view))
    ) + &paragraphs(&others)
}

fn of_each(view: &MenuView) -> String {
    let said = view
        .drinks
        .iter()
        .enumerate()
        .map(|(place, drink)| format!("{}: {}", numbered(place, &drink.of), drink.allergens.allergens_say));
    list(&said.collect::<Vec<_>>())
}

fn money(view: &MenuView) -> String {
    section("Price", &table(&words::priced(view, numbered)), &paragraphs(&words::of_money(view)))
}
