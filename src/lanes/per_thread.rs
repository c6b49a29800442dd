//! A batch cut into parts, one for each thread.

/// Work below this is done at once: waking a thread costs as much. In places times kernel steps of
/// a few nanoseconds each.
#[cfg(feature = "parallel")]
const WORTH_A_THREAD: usize = 8192;

/// Calls `fill(start, part)` for parts that together are `out`. `work` says how much there is to do
/// in all, as places times kernel steps.
///
/// Without the feature `parallel` there is one part and one thread. With it, a large batch is shared
/// among the threads of the rayon pool that the caller runs in (`rayon::ThreadPool::install`), or of one
/// that the library keeps, whose size the environment variable `RAYON_NUM_THREADS` sets.
pub fn in_parts<T: Send>(out: &mut [T], work: usize, fill: impl Fn(usize, &mut [T]) + Sync) {
    #[cfg(feature = "parallel")]
    if work >= 2 * WORTH_A_THREAD {
        use super::threads::{Threads, threads};
        use rayon::prelude::*;
        let mut share = || {
            // More parts than threads, so that one that is held up elsewhere does not hold up the rest.
            let parts = (work / WORTH_A_THREAD).min(4 * rayon::current_num_threads());
            // whole registers and cache lines
            let length = out.len().div_ceil(parts).next_multiple_of(64);
            out.par_chunks_mut(length).enumerate().for_each(|(place, part)| fill(place * length, part));
        };
        match threads() {
            Threads::Around => return share(),
            Threads::Own(pool) => return pool.install(share),
            Threads::None => {}
        }
    }
    let _ = work;
    fill(0, out);
}

/// Both as far as the shorter one goes.
pub fn paired<'a, 'b, A, B>(inputs: &'a [A], outputs: &'b mut [B]) -> (&'a [A], &'b mut [B]) {
    let len = inputs.len().min(outputs.len());
    (&inputs[..len], &mut outputs[..len])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_make_up_the_whole() {
        for length in [0, 1, 63, 64, 65, 100_000] {
            let mut out = vec![0; length];
            in_parts(&mut out, 3 * length, |start, part| {
                for (place, value) in part.iter_mut().enumerate() {
                    *value += start + place + 1;
                }
            });
            assert!(out.iter().enumerate().all(|(place, &value)| value == place + 1));
        }
    }
}
