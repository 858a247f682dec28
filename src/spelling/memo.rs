//! What was answered of a text is kept: a judgement asks the same few names, amounts and clauses many hundred times.

use std::collections::HashMap;
use std::collections::hash_map::DefaultHasher;
use std::hash::BuildHasherDefault;
use std::sync::{Arc, Mutex, PoisonError};

/// The answers of one pure function of a text.
#[derive(Debug)]
pub(crate) struct Memo<A> {
    kept: Mutex<KeptAnswers<A>>,
}

#[derive(Debug)]
struct KeptAnswers<A> {
    by_text: HashMap<String, Arc<A>, BuildHasherDefault<DefaultHasher>>,
    /// Of all these texts, bytes.
    bytes: usize,
}

/// So many answers are kept, of so many bytes of text: more than a house has (ours). Beyond it all are forgotten, so that a folder of
/// strange cards asks for no more memory.
const MOST_KEPT: usize = 8192;
const MOST_BYTES: usize = 1 << 20;

impl<A> Memo<A> {
    pub(crate) const fn new() -> Self {
        let by_text = HashMap::with_hasher(BuildHasherDefault::new());
        Self { kept: Mutex::new(KeptAnswers { by_text, bytes: 0 }) }
    }

    /// What was answered of this text, or is answered now.
    pub(crate) fn of(&self, text: &str, answer: impl FnOnce(&str) -> A) -> Arc<A> {
        let kept = || self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some(known) = kept().by_text.get(text) {
            return Arc::clone(known);
        }
        // Nobody waits for an answer that another thread looks for: it is the same one.
        let found = Arc::new(answer(text));
        let mut kept = kept();
        if kept.by_text.len() >= MOST_KEPT || kept.bytes + text.len() > MOST_BYTES {
            kept.by_text.clear();
            kept.bytes = 0;
        }
        kept.bytes += text.len();
        kept.by_text.insert(text.to_owned(), Arc::clone(&found));
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
