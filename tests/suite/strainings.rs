//! Whether a sentence of a pasted method strains, and what stands behind the straining. All invented.

use crate::pasting::holds;

fn puree(last: &str) -> String {
    format!("Puree\n1 kg strawberries\n500 g sugar\n\nBlend the strawberries with the sugar. {last}\n")
}

#[test]
fn what_is_denied_does_not_strain() {
    for denied in [
        "Do not strain.",
        "Don’t strain.",
        "No need to strain it.",
        "Bottle without straining.",
        "Never strain it.",
        "There is no straining.",
        "Skip the strainer.",
        "Nicht abseihen.",
        "Ohne abseihen abfüllen.",
        "No colar.",
        "Non filtrare.",
        "Ne pas filtrer.",
    ] {
        holds(&puree(denied), &["strawberries = \"1 kg\"  # assumed: stays in", "!strained = true }"]);
    }
    holds(&puree("Simmer the strained peel in the water."), &["!strained = true }"]);
    holds(&puree("Strain if you like."), &["strawberries = \"1 kg\"  # ? does it stay in?"]);
    for strained in [
        "Strain but do not press.",
        "Do stir and strain.",
        "Filtrare lo sciroppo senza schiacciare.",
        "Keep it strained.",
    ] {
        holds(&puree(strained), &["strawberries = { amount = \"1 kg\", strained = true }"]);
    }
}

/// Two stages where something goes in behind the straining, one where nothing does.
#[test]
fn what_goes_in_behind_a_straining_is_a_piece_of_its_own() {
    let syrup = |last: &str| {
        format!(
            "Syrup\n500 g ginger\n1 l water\n900 g sugar\n250 ml white wine vinegar\n\nSimmer the ginger in the water for 20 \
             minutes.\n{last}\n"
        )
    };
    for (last, behind) in [
        ("Strain and stir in the sugar and the vinegar.", "sugar = \"900 g\""),
        ("Colar y añadir el azúcar.", "infusion"),
        ("Strain into the vinegar and stir in the sugar.", "\"white wine vinegar\" = \"250 ml\""),
    ] {
        holds(&syrup(last), &["name = \"infusion\"", "[parts]\ninfusion = \"all\"", behind]);
    }
    // a berry that may be strained is not one that is
    holds(&puree("Strain and press the berries, if you like."), &["# ? does it stay in?", "!name = \"infusion\""]);
    holds(&puree("Stir and strain in the fridge for 2 days."), &["strained = true", "!name = \"infusion\""]);
}
