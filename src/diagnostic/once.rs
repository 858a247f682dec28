//! What is said once: repeats are left out, and what the same is said of stands together. Both keep the order.

/// Each once, where it comes first.
pub(crate) fn without_repeats<T: PartialEq>(all: impl IntoIterator<Item = T>) -> Vec<T> {
    let mut once = Vec::new();
    for one in all {
        if !once.contains(&one) {
            once.push(one);
        }
    }
    once
}

/// What stands under the same key, together.
pub(crate) fn gathered<K: PartialEq, T>(all: impl IntoIterator<Item = (K, T)>) -> Vec<(K, Vec<T>)> {
    let mut groups: Vec<(K, Vec<T>)> = Vec::new();
    for (key, one) in all {
        match groups.iter_mut().find(|(of, _)| *of == key) {
            Some((_, group)) => group.push(one),
            None => groups.push((key, vec![one])),
        }
    }
    groups
}
