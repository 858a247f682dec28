//! What is said at once of a card that cannot be solved yet: what its lines name that is not to be made, whatever they weigh.

use crate::card::Card;
use crate::diagnostic::{Code, Diagnostic};
use crate::house::House;
use crate::safety::{Facts, evaluate};

/// The stops that hang on nothing but the name of a line and what its larder entry is.
pub(crate) fn stops(card: &Card, house: &House) -> Vec<Diagnostic> {
    let without = evaluate(&Facts::of_nothing());
    let of_line = |label: &str| {
        let mut facts = Facts::of_nothing();
        let tags = house.larder.find(label).map_or(&[][..], |entry| &entry.tags);
        facts.add_ingredient(&[label], tags, &[] as &[&str]);
        let is_new = |code: &str| without.iter().all(|caution| caution.code != code);
        evaluate(&facts).into_iter().find(|caution| caution.stops() && caution.is_certain() && is_new(caution.code))
    };
    let parts = card.all_stages().flat_map(|stage| &stage.parts);
    let stops = parts.filter_map(|part| {
        let stop = of_line(&part.label.value).or_else(|| of_line(&part.of.value))?;
        let title = format!("`{}`: {stop}", part.label.value);
        let help = "take it out, before anything else is mended".to_owned();
        Some(
            Diagnostic::warning(Code::Caution, title)
                .at(part.label.span, "not to be made")
                .in_file(&card.file)
                .help(help),
        )
    });
    stops.collect()
}
