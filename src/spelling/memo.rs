//! What was answered of a name is kept: a judgement asks the same few names of its parts many hundred times.

use std::collections::HashMap;
use std::collections::hash_map::DefaultHasher;
use std::hash::BuildHasherDefault;
use std::sync::{Arc, Mutex, PoisonError};

/// The answers of one pure function of a name.
#[derive(Debug)]
pub(crate) struct Memo<A> {
    answers: Mutex<HashMap<String, Arc<A>, BuildHasherDefault<DefaultHasher>>>,
}

/// So many answers are kept: more than a house has names. Beyond it all are forgotten, so that a folder of strange cards
/// asks for no more memory.
const MOST_KEPT: usize = 8192;

impl<A> Memo<A> {
    pub(crate) const fn new() -> Self {
        Self { answers: Mutex::new(HashMap::with_hasher(BuildHasherDefault::new())) }
    }

    /// What was answered of this name, or is answered now.
    pub(crate) fn of(&self, name: &str, answer: impl FnOnce(&str) -> A) -> Arc<A> {
        let kept = || self.answers.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = kept().get(name) {
            return Arc::clone(known);
        }
        // Nobody waits for an answer that another thread looks for: it is the same one.
        let found = Arc::new(answer(name));
        let mut answers = kept();
        if answers.len() >= MOST_KEPT {
            answers.clear();
        }
        answers.insert(name.to_owned(), Arc::clone(&found));
        found
    }
}

/// A copy of who asks may be changed, and is asked anew.
impl<A> Clone for Memo<A> {
    fn clone(&self) -> Self {
        Self::new()
    }
}

impl<A> Default for Memo<A> {
    fn default() -> Self {
        Self::new()
    }
}
