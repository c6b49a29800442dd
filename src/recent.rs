//! What was worked out lately, kept for the next one who needs the same: by what it depends on, for all threads.

use std::sync::{Arc, Mutex, PoisonError};

/// The last few results of something costly, by key. A number in a key stands there by its bits.
///
/// Nothing is worked out under the lock, so that no thread waits for another one's work and a process that forks leaves no
/// lock behind; two threads that need the same at the same time both work it out.
#[derive(Debug)]
pub(crate) struct Recent<K, V> {
    most: usize,
    /// The one used last stands last.
    kept: Mutex<Vec<(K, Arc<V>)>>,
}

impl<K: PartialEq, V> Recent<K, V> {
    /// Keeps at most so many.
    pub(crate) const fn new(most: usize) -> Self {
        Self { most, kept: Mutex::new(Vec::new()) }
    }

    /// What belongs to a key, worked out where it is not there.
    pub(crate) fn get_or_make(&self, key: K, make: impl FnOnce() -> V) -> Arc<V> {
        if let Some(found) = self.find(&key) {
            return found;
        }
        let made = Arc::new(make());
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        if kept.len() >= self.most {
            kept.remove(0);
        }
        kept.push((key, Arc::clone(&made)));
        made
    }

    fn find(&self, key: &K) -> Option<Arc<V>> {
        let mut kept = self.kept.lock().unwrap_or_else(PoisonError::into_inner);
        let place = kept.iter().position(|(known, _)| known == key)?;
        kept[place..].rotate_left(1);
        kept.last().map(|(_, value)| Arc::clone(value))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_least_used_gives_way() {
        let recent = Recent::new(2);
        let mut made = Vec::new();
        for key in [1, 2, 1, 3, 1, 2] {
            let value = recent.get_or_make(key, || {
                made.push(key);
                10 * key
            });
            assert_eq!(*value, 10 * key);
        }
        // 3 has pushed 2 out, not 1, which was used again; then 2 has pushed out 3.
        assert_eq!(made, [1, 2, 3, 2]);
    }
}
