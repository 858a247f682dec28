//! One name for the many ways in which people write it.

/// The folded form under which a name is looked up: small letters, hyphens and commas as spaces, simple plurals
/// made singular.
pub(crate) fn fold(name: &str) -> String {
    let cleaned: String = name
        .to_lowercase()
        .chars()
        .filter(|c| !matches!(c, '\'' | '’'))
        .map(|c| if c.is_alphanumeric() || matches!(c, '.' | '%') { c } else { ' ' })
        .collect();
    cleaned.split_whitespace().map(singular).collect::<Vec<_>>().join(" ")
}

fn singular(word: &str) -> String {
    match word {
        w if w.len() > 4 && w.ends_with("ies") => format!("{}y", w.trim_end_matches("ies")),
        w if w.len() > 3 && w.ends_with('s') && !["ss", "us", "is"].iter().any(|e| w.ends_with(e)) => {
            w.trim_end_matches('s').to_owned()
        }
        w => w.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::fold;

    #[test]
    fn spellings_of_one_name_fold_to_one() {
        for (a, b) in [
            ("Cloves", "clove"),
            ("lime-juice", "Lime  juice"),
            ("Lime juice, fresh", "lime juice fresh"),
            ("juniper berries", "Juniper-berry"),
            ("confectioner’s glucose", "confectioners glucose"),
        ] {
            assert_eq!(fold(a), fold(b));
        }
        assert_eq!(fold("hibiscus"), "hibiscus");
        assert_eq!(fold("rum-overproof-75.5"), "rum overproof 75.5");
    }
}
