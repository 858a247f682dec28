//! `stillroom`: formulation and shelf life for people who make their own bar ingredients.
//!
//! The rooms, in the order in which they may use each other (each may use those above it):
//!
//! 1. [`diagnostic`]: what is wrong, where, what was expected and what to write.
//! 2. [`references`]: the one bibliography.
//! 3. [`spelling`]: one folding of names, one singular, one nearest; what a name denies.
//! 4. [`vocabulary`]: the closed lists of words of cards, houses and tables.
//! 5. [`units`]: amounts as people write them, as typed quantities.
//! 6. [`input`]: text files with the place of every value, read from one list of their keys.
//! 7. [`mixture`]: what a mixture is made of, and the equations of how it behaves. Pure functions.
//! 8. [`properties`]: what is said of a liquid, how it is shown, and what stands behind it.
//! 9. [`instruments`]: what instruments show, as true values with their uncertainty.
//! 10. [`larder`]: ingredients and where their numbers come from.
//! 11. [`card`]: what a maker writes.
//! 12. [`house`]: settings and cards by name, from texts or from a folder.
//! 13. [`solver`]: unknown amounts from targets.
//! 14. [`paste`]: a recipe as people write it, as a card, and back.
//! 15. [`uncertainty`]: how sure each number is, and what spoils it most.
//! 16. [`safety`]: cautions as data, judged with answers of yes, no and not known.
//! 17. [`shelf_life`]: how long it keeps: one date with its reason.
//! 18. [`assessment`]: the one judgement of a solved card: allergens, cautions, dates.
//! 19. [`cost`]: what a batch costs, and whether it is worth making. Decimals only.
//! 20. [`aim`]: what a card with room chooses: the cheapest, the least waste, the longest life.
//! 21. [`drinks`]: one guest's glass, a batch of it, another part in it.
//! 22. [`plan`]: pars, lead times and dates: a prep list and an order list.
//! 23. [`menu`]: what is sold, and what it asks of a plan.
//! 24. [`lots`]: what was made, what went into it, and by when it goes.
//! 25. [`report`]: one view a verb: what it prints is what its JSON says.
//! 26. [`render`]: text and charts of a report.
//! 27. [`publish`]: the bench page: what stands on it, and what it answers.
//! 28. [`cli`]: the verbs; the only room that knows a terminal and an exit code.
//!
//! The library returns data and diagnostics; it never prints and never exits. Without the features `cli` and `charts` it
//! opens no file and asks no clock.

pub mod diagnostic;
pub mod references;
pub mod spelling;
pub mod vocabulary;

pub mod units;

pub mod input;

pub mod mixture;

pub mod properties;

pub mod instruments;

pub mod larder;

pub mod card;

pub mod house;

pub mod solver;

pub mod paste;

pub mod uncertainty;

pub mod safety;

pub mod shelf_life;

pub mod assessment;

pub mod cost;

pub mod aim;

pub mod drinks;

pub mod plan;

pub mod menu;

pub mod lots;

pub mod report;

pub mod render;

pub mod publish;

#[cfg(feature = "cli")]
pub mod cli;
