//! "8 lemons" on a typed card whose steps take the peel or the juice of them: the line counts all of it, so it is asked, with the line
//! to write. Where a step or another line says what goes in, nothing is.

use crate::kitchen::Kitchen;
use stillroom::diagnostic::Code;
use stillroom::solver::Options;

fn asked(steps: &str, parts: &str) -> Vec<String> {
    let kitchen = Kitchen::unstated("");
    let card = format!("name = \"T\"\nsteps = [\"{steps}\"]\n[parts]\n{parts}\nsugar = \"300 g\"\n");
    let opened = kitchen.solve(&card, &Options::default());
    opened.dated(2_000).unidentified.into_iter().map(|open| open.question).collect()
}

#[test]
fn peel_and_juice_of_what_is_counted_whole_are_asked() {
    for (steps, parts, says) in [
        (
            "Peel the lemons, cover the peel with the vodka, leave 2 weeks. Strain, stir in the sugar.",
            "lemons = { amount = \"8\", strained = true }\nvodka = \"1 L\"",
            "lemons = { amount = \"peel of 8 lemons\", strained = true }",
        ),
        ("Zest the lemons into the vodka, leave 10 days.", "lemons = \"8\"\nvodka = \"1 L\"", "\"zest of 8 lemons\""),
        (
            "Zitronen dünn schälen und die Schalen 2 Wochen im Wodka ziehen lassen.",
            "Zitronen = \"8\"\nWodka = \"1 l\"",
            "Zitronen = \"peel of 8 Zitronen\"",
        ),
        (
            "Éplucher les citrons, couvrir les écorces de vodka.",
            "citrons = \"8\"\nvodka = \"1 l\"",
            "citrons = \"peel of 8 citrons\"",
        ),
        (
            "Pelar los limones y cubrir la piel con el vodka.",
            "limones = \"8\"\nvodka = \"1 l\"",
            "limones = \"peel of 8 limones\"",
        ),
        (
            "Sbucciare i limoni e mettere le scorze nella vodka.",
            "limoni = \"8\"\nvodka = \"1 l\"",
            "limoni = \"peel of 8 limoni\"",
        ),
        ("Juice the lemons, mix.", "lemons = \"8\"\nwater = \"1 L\"", "lemons = \"juice of 8 lemons\""),
        ("Zitronen auspressen, mischen.", "Zitronen = \"8\"\nwater = \"1 L\"", "Zitronen = \"juice of 8 Zitronen\""),
        ("Presser les citrons, mélanger.", "citrons = \"8\"\nwater = \"1 L\"", "citrons = \"juice of 8 citrons\""),
        (
            "Zest and juice the limes. Stir in the sugar.",
            "limes = \"10\"",
            "\"limes, zest\" = { of = \"limes\", amount = \"zest of 10 limes\" }",
        ),
        ("Zest and juice the fruit. Stir in the sugar.", "oranges = \"4\"", "oranges = \"juice of 4 oranges\""),
        ("Juice the apples, stir in the sugar.", "apples = \"6\"", "apples = \"juice of 6 apples\""),
        ("Juice the pineapple, stir in the sugar.", "pineapple = \"1 each\"", "pineapple = \"juice of 1 pineapple\""),
        ("Juice the ginger, stir in the sugar.", "ginger = \"500 g\"", "\"ginger juice\" = \"… g\""),
        ("Put the beetroot through the juicer.", "beetroot = \"1 kg\"", "\"beetroot juice\" = \"… g\""),
        ("Peel the oranges, blend the flesh.", "oranges = \"6\"", "\"oranges, peeled\" = \"… g\""),
    ] {
        let asked = asked(steps, parts);
        assert!(asked.iter().any(|asked| asked.contains("NOT COMPLETE") && asked.contains(says)), "{steps}: {asked:?}");
    }
}

#[test]
fn what_is_said_of_the_fruit_is_not_asked_again() {
    for (steps, parts) in [
        ("Peel the lemons, cover the peel with the vodka.", "lemons = \"peel of 8 lemons\"\nvodka = \"1 L\""),
        ("Peel the lemons. Blend.", "\"lemons, peeled\" = \"600 g\""),
        ("Juice the lemons. Mix.", "lemons = \"juice of 8 lemons\""),
        (
            "Juice the lemons and add the peel. Mix.",
            "\"lemon juice\" = \"juice of 8 lemons\"\n\"lemon peel\" = \"20 g\"",
        ),
        ("Juice the limes; slice the limes.", "\"lime juice\" = \"100 ml\"\nlimes = \"2\""),
        ("Add the lime juice and the raspberries.", "\"lime juice\" = \"100 ml\"\nraspberries = \"100 g\""),
        ("Add the lemon peel and the oranges, sliced.", "\"lemon peel\" = \"20 g\"\noranges = \"2\""),
        ("Slice the lemons. Squeeze the bag, bottle.", "lemons = \"4\""),
        ("Juice the lemons and add the cardamom.", "\"lemon juice\" = \"100 ml\"\ncardamom = \"2 g\""),
    ] {
        let asked = asked(steps, parts);
        assert!(!asked.iter().any(|asked| asked.contains("a step takes")), "{steps}: {asked:?}");
    }
}

/// Peel and stones of what is weighed before are in the weight: a few per cent of it, so it is said and nothing stops.
#[test]
fn what_is_pared_is_asked_how_it_was_weighed() {
    let warned = |steps: &str, parts: &str| {
        let kitchen = Kitchen::unstated("");
        let card = format!("name = \"T\"\nsteps = [\"{steps}\"]\n[parts]\n{parts}\nsugar = \"300 g\"\n");
        let (_, found) = kitchen.solve(&card, &Options::default()).sheet_and_found();
        found.iter().any(|found| found.code == Code::NotStated && found.title.contains("what nobody eats"))
    };
    assert!(warned("Peel and stone the peaches. Blend.", "peaches = \"1 kg\""));
    assert!(warned("Stone the cherries, blend.", "cherries = \"1 kg\""));
    assert!(warned("Pfirsiche schälen und entkernen, mixen.", "Pfirsiche = \"1 kg\""));
    assert!(!warned("Peel and stone the peaches. Blend.", "\"peaches, peeled\" = \"1 kg\""));
    assert!(!warned("Slice the peaches. Blend.", "peaches = \"1 kg\""));
}

/// A step that takes the peel takes it of what is weighed too, and of the only fruit of the card where it names none.
#[test]
fn a_peel_is_asked_of_what_is_weighed_and_of_the_only_fruit() {
    let asked = |fruit: &str, step: &str| {
        let kitchen = Kitchen::new("");
        kitchen.write("x.toml", &format!("name = \"x\"\nsteps = [\"{step}\"]\n[parts]\n{fruit}\nvodka = \"1 L\"\n"));
        let (_, out, err) = kitchen.run(&["solve", "x.toml"]);
        format!("{out} {err}").split_whitespace().collect::<Vec<_>>().join(" ")
    };
    for (fruit, step, expected) in [
        (
            "oranges = { amount = \"500 g\", strained = true }",
            "Steep the peel of the oranges. Strain.",
            "\"orange peel\" = \"… g\"",
        ),
        (
            "lemons = { amount = \"6\", strained = true }",
            "Zest only, no pith: steep an hour and strain.",
            "peel of 6 lemons",
        ),
        (
            "lemons = { amount = \"6\", strained = true }",
            "Pare thinly with a veg peeler, steep the peel. Strain.",
            "peel of 6 lemons",
        ),
        (
            "grapefruit = { amount = \"4\", strained = true }",
            "Use the peel of the grapefruit. Strain.",
            "peel of 4 grapefruit",
        ),
    ] {
        let sheet = asked(fruit, step);
        assert!(sheet.contains(expected), "{fruit} {step}: {sheet}");
    }
    let sliced = asked(
        "lemons = { amount = \"6\", strained = true }",
        "Slice them and steep. Strain. Garnish with orange peel.",
    );
    assert!(!sliced.contains("takes its peel"), "{sliced}");
}
