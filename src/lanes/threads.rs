//! The threads that large batches are shared among.

use std::sync::{Arc, Mutex};

use rayon::{ThreadPool, ThreadPoolBuilder};

/// The pool of one process.
struct Owned {
    process: u32,
    pool: Arc<ThreadPool>,
}

static OWNED: Mutex<Option<Owned>> = Mutex::new(None);

/// Where rayon's parallel iterators find threads.
pub enum Threads {
    /// In the pool that the caller runs in already.
    Around,
    /// In one that the library keeps, whose size `RAYON_NUM_THREADS` sets.
    ///
    /// It is the library's own and not rayon's global one, since threads do not survive a fork: a worker
    /// process that Python forks would wait forever for those of its parent. It gets a pool of its own.
    Own(Arc<ThreadPool>),
    /// Nowhere: there is one thread, or a pool could not be had.
    None,
}

/// The threads that the caller has.
pub fn threads() -> Threads {
    if rayon::current_thread_index().is_some() {
        return Threads::Around;
    }
    match own_pool() {
        Some(pool) if pool.current_num_threads() > 1 => Threads::Own(pool),
        _ => Threads::None,
    }
}

fn own_pool() -> Option<Arc<ThreadPool>> {
    // Held by another thread for a moment, or for good by one that a fork left behind: do without.
    let mut owned = OWNED.try_lock().ok()?;
    let process = std::process::id();
    if owned.as_ref().is_none_or(|owned| owned.process != process) {
        let pool = Arc::new(ThreadPoolBuilder::new().thread_name(|i| format!("stillroom {i}")).build().ok()?);
        // The parent's pool is left alone: its threads are not here to be told.
        std::mem::forget(owned.replace(Owned { process, pool }));
    }
    owned.as_ref().map(|owned| Arc::clone(&owned.pool))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_callers_pool_comes_first() {
        let pool = ThreadPoolBuilder::new().num_threads(3).build().unwrap();
        assert!(pool.install(|| matches!(threads(), Threads::Around)));
        assert!(!matches!(threads(), Threads::Around));
    }

    #[test]
    fn the_pool_stays_the_same_within_a_process() {
        let (Some(first), Some(second)) = (own_pool(), own_pool()) else { return };
        assert!(Arc::ptr_eq(&first, &second));
    }
}
