//! Heat in everyday words, and how long a thing keeps, in five languages. All invented.

use crate::pasting;
use stillroom::house::House;
use stillroom::paste::paste;

/// The card of a syrup with these steps holds each of these; what stands behind a `!` it does not.
fn holds_in(house: &House, steps: &str, expected: &[&str]) {
    pasting::holds_in(house, &format!("Syrup\n500 g sugar\n500 ml water\n\n{steps}\n"), expected);
}

fn holds(steps: &str, expected: &[&str]) {
    holds_in(&House::default(), steps, expected);
}

#[test]
fn degrees_are_read_by_their_word() {
    for (steps, heated) in [
        ("Auf 80 Grad erhitzen und 5 Minuten halten.", "80 °C for 5 Minuten"),
        ("Auf 70 °C erwärmen und 20 Minuten ziehen lassen.", "70 °C for 20 Minuten"),
        ("Bei 70 Grad 20 Minuten ziehen lassen.", "70 °C for 20 Minuten"),
        ("Im Wasserbad bei 70 Grad 20 Minuten ziehen lassen.", "70 °C for 20 Minuten"),
        ("Über dem Wasserbad auf 75 Grad rühren (nicht kochen!).", "75 °C"),
        ("Chauffer à 80 degrés pendant 10 minutes.", "80 °C for 10 minutes"),
        ("Tiédir à 60 degrés 20 minutes.", "60 °C for 20 minutes"),
        ("Calentar a 80 grados 10 minutos.", "80 °C for 10 minutos"),
        ("Entibiar a 60 grados 20 minutos.", "60 °C for 20 minutos"),
        ("Scaldare a 80 gradi per 10 minuti.", "80 °C for 10 minuti"),
        ("Heat to 80 degrees C for 10 minutes.", "80 degrees C for 10 minutes"),
        // water is never so hot in °C
        ("Warm to 160 degrees for 20 minutes.", "160 °F for 20 minutes"),
        ("Eine halbe Stunde simmern lassen.", "85 °C for 30 min"),
    ] {
        holds(steps, &[&format!("heated = \"{heated}\""), "!takes", "!so hot"]);
    }
    holds(
        "Heat to 80 degrees for 10 minutes.",
        &["# ? Heat to 80 degrees for 10 minutes: °C or °F", "!heated = \"80 °F"],
    );
    let (us, _) = House::from_texts([("house.toml", "[house]\nname = \"x\"\nmeasures = \"US\"\n")]);
    holds_in(&us, "Heat to 105 degrees for 10 minutes.", &["heated = \"105 °F for 10 minutes\""]);
}

#[test]
fn what_is_warmed_for_a_time_is_asked_how_hot() {
    for steps in ["Warm gently for 20 minutes.", "Faire cuire 20 min.", "Cocer 20 minutos.", "Cuocere per 20 minuti."] {
        holds(steps, &["how hot was it, and was all of it? heated = \"… °C for 20 min"]);
    }
    for steps in ["Laisser tiédir à 40 °C.", "Let cool to 60 °C.", "Soak in warm water.", "Warm until dissolved."] {
        holds(steps, &["!heated"]);
    }
    holds("Cover and leave for 2 days somewhere warm.", &["takes = \"2 days\"", "!heated"]);
    holds("Leave somewhere warm at 30 °C for 2 days.", &["takes = \"2 days\"\nat = \"30 °C\"", "!heated"]);
    holds("Heat to 85 °C, 5 minutes.", &["heated = \"85 °C for 5 minutes\"", "!takes"]);
    holds(
        "Heat to 85 °C for 5 minutes, overnight in the fridge.",
        &["heated = \"85 °C for 5 minutes\"", "takes = \"12 h\""],
    );
    holds("Steep at 50 °C for 2 hours.", &["takes = \"2 hours\"\nat = \"50 °C\"", "!heated"]);
}

#[test]
fn what_is_held_cooler_than_the_boil_before_it_was_so_warm() {
    holds("Aufkochen und 20 Minuten bei 80 Grad ziehen lassen.", &["heated = \"80 °C for 20 Minuten\"", "!95"]);
    holds("Bring to a boil, then hold at 80 °C for 20 minutes.", &["heated = \"80 °C for 20 minutes\"", "!95"]);
    holds("Bring to a boil. Simmer at 85 °C for 20 minutes.", &["heated = \"85 °C for 20 minutes\"", "!95"]);
}

#[test]
fn how_long_it_keeps_is_no_work_and_is_kept() {
    for said in [
        "Se garde 1 mois au frais.",
        "Se conserve 3 semaines.",
        "Si mantiene 1 mese in frigo.",
        "Guardar 2 semanas en frío.",
        "Kühl aufbewahren, 3 Wochen.",
        "Hält sich 4 Wochen im Kühlschrank.",
        "Refrigerate, 1 month.",
        "Will hold for 3 weeks in the fridge.",
        "Shelf life 4 days.",
        "Dura 15 días.",
    ] {
        holds(&format!("Stir. {said}"), &["!takes", said]);
        holds(&format!("Heat to 80 °C for 5 minutes. {said}"), &["!takes", said]);
    }
    holds("Makes about 1 l. Refrigerate, 1 month.", &["says \"about 1 l\"", "\"Refrigerate, 1 month.\"", "!takes"]);
    holds("Stir. Makes about 1 l. Refrigerate, 1 month.", &["says \"about 1 l\"", "Stir. Refrigerate, 1 month."]);
    for (line, kept) in
        [("Se garde 1 mois au frais", "notes"), ("Shelf life 4 days", "notes"), ("Keeps 4 days", "notes")]
    {
        holds(line, &[&format!("{kept} = \"{line}\"")]);
    }
}

#[test]
fn butter_that_is_browned_is_washed_with_and_has_no_water() {
    let text = "Rum\n1 l aged rum\n200 g butter\n\nBrown the butter for 6 min. Let cool to 50 °C, add to the rum. Freeze overnight, strain, \
                discard the fat.\n";
    let card = paste(text, &House::default()).card;
    assert!(
        card.contains("washed = \"fat\"") && card.contains("browned, its water is gone: of = \"brown butter\""),
        "{card}"
    );
    assert!(!card.contains("name = \"base\""), "{card}");
}

/// What could not be counted may be what is heated.
#[test]
fn heat_of_what_the_list_could_not_count_is_asked() {
    let text = "Punch\n1 l rum\n500 ml black tea\n3 cups whole milk\n\nStir. Heat the milk to 60 °C for 5 minutes. Pour the punch in.\n";
    let card = paste(text, &House::default()).card;
    assert!(card.contains("# ? heated = \"60 °C for 5 minutes\": was all of it so hot?"), "{card}");
}

/// The comma of a list in the pan is no end of its heat: the rest of the list stands in that pan too.
#[test]
fn a_list_in_the_pan_goes_on_behind_its_commas() {
    let card = |parts: &str, steps: &str| format!("Syrup\n{parts}\n\n{steps}\n");
    for (parts, steps) in [
        (
            "150 g ginger\n300 g sugar\n300 ml water",
            "Simmer ginger, sugar and water for 20 minutes, cool. Strain and bottle.",
        ),
        (
            "150 g ginger\n300 g sugar\n300 ml water",
            "Simmer ginger, sugar, and water for 20 minutes, cool. Strain and bottle.",
        ),
        (
            "150 g ginger\n300 g honey\n300 ml water",
            "Simmer ginger, honey and water for 20 minutes, let it cool, strain.",
        ),
        (
            "150 g de jengibre\n300 g de azúcar\n300 ml de agua",
            "Hervir jengibre, azúcar y agua 20 minutos, dejar enfriar. Colar y embotellar.",
        ),
        (
            "150 g de gingembre\n300 g de sucre\n300 ml d'eau",
            "Faire bouillir gingembre, sucre et eau 20 minutes, laisser refroidir. Filtrer.",
        ),
        (
            "400 g rhubarb\n100 ml orange juice\n300 g sugar\n100 ml water",
            "Cook rhubarb, juice, sugar and water until soft, cool, strain and bottle.",
        ),
        (
            "500 g blackberries\n300 g sugar\n300 ml water",
            "Cook blackberries, sugar and water until soft, cool. Strain and bottle.",
        ),
    ] {
        let kept = format!("  \"{steps}\",");
        pasting::holds(&card(parts, steps), &[&kept, "strained = true }", "![[stage]]"]);
    }
    let minutes = "Simmer ginger, sugar and water for 20 minutes, cool. Strain.";
    let of_ginger = card("150 g ginger\n300 g sugar\n300 ml water", minutes);
    pasting::holds(&of_ginger, &["heated = \"85 °C for 20 minutes\""]);
    // what the list in the pan does not have goes in behind it
    let late =
        card("150 g ginger\n300 g sugar\n300 ml water\n100 ml rum", "Simmer ginger, sugar and water, cool, add rum.");
    pasting::holds(
        &late,
        &["name = \"base\"", "[parts]\nbase = \"all\"", "rum = \"100 ml\"", "Simmer ginger, sugar and water."],
    );
}

/// What was strained stands in no pan whose list a comma parts.
#[test]
fn a_strained_spirit_stays_out_of_the_pan_of_a_list() {
    let rum = "Spiced rum\n700 ml rum\n2 cinnamon sticks\n100 g demerara sugar\n100 ml water\n\n";
    let steps = "Infuse rum and cinnamon for 5 days. Strain. Warm sugar, water; cool; mix and bottle.\n";
    pasting::holds(
        &format!("{rum}{steps}"),
        &["\"Warm sugar, water; cool; mix and bottle.\"", "!Warm sugar.\"", "name = \"infusion\"", "!name = \"base\""],
    );
}

/// What the sentence in front names is what is heated, and what goes in off the heat is not.
#[test]
fn the_pan_that_a_heat_names_in_front_is_of_those_alone() {
    let text = "Agave\n2 jalapeños\n300 ml agave nectar\n180 ml water\n\nCombine agave and water in a small pot; bring to simmer. \
                Add jalapeños. Remove from heat; cover; steep 45 min. Strain.\n";
    let card = paste(text, &House::default()).card;
    assert!(card.contains("# assumed: heated = \"85 °C\": of what that step names alone"), "{card}");
    assert!(!card.contains("was all of it so hot"), "{card}");
}

/// What is added goes to what is in the pan: the heat is not of that alone.
#[test]
fn the_pan_that_something_is_added_to_is_asked_for_its_heat() {
    let text = "Crème de mûres\n\nPour 1 litre environ :\n500 g de mûres\n75 cl de vin rouge\n350 g de sucre environ\n10 cl d'eau-de-vie \
                (facultatif)\n\nÉcraser les mûres, verser le vin et laisser macérer 48 h au frais. Filtrer en pressant. Ajouter le sucre, \
                porter à frémissement 5 minutes. Laisser refroidir, ajouter l'eau-de-vie, mettre en bouteille.\n";
    let base = "infusion = \"all\"  # assumed: all that it gives\nsucre = \"350 g\"";
    pasting::holds(text, &["name = \"base\"\nheated = \"85 °C for 5 minutes\"", base, "[parts]\nbase = \"all\""]);
}

/// Behind the straining all that ran through is boiled again.
#[test]
fn what_is_strained_and_boiled_again_is_boiled_whole() {
    for (list, steps) in [
        (
            "20 Holunderblütendolden\n1 kg Zucker\n1 l Wasser\n2 Zitronen, in Scheiben\n25 g Zitronensäure",
            "Zucker und Wasser aufkochen. Abkühlen lassen.\nDolden mit den Zitronenscheiben und der Zitronensäure in den Sirup geben.\n\
             2 Tage ziehen lassen.\nDurch ein Tuch seihen, nochmals aufkochen und in Flaschen füllen.",
        ),
        (
            "20 elderflower heads\n1 kg sugar\n1 l water\n25 g citric acid",
            "Boil the sugar and water, leave to cool.\nAdd the elderflowers and the citric acid, steep for 2 days.\nStrain, bring back to the \
             boil, bottle.",
        ),
    ] {
        pasting::holds(&format!("Sirup\n{list}\n\n{steps}\n"), &["\nheated = \"95 °C\"", "!was all of it so hot"]);
    }
    // what no step names may be in it or not
    let rum = "Sirup\n20 g hibiscus\n1 kg sugar\n1 l water\n200 ml rum\n\nBoil the sugar and water. Add the hibiscus, steep for a day.\nStrain, \
               bring back to the boil.\n";
    pasting::holds(rum, &["!\nheated = "]);
}
