//! A batch cut into parts, one for each thread.

/// Work below this is done at once: waking a thread costs as much. In places times kernel steps of
/// a few nanoseconds each.
#[cfg(feature = "parallel")]
const WORTH_A_THREAD: usize = 8192;

/// Calls `fill(start, part)` for parts that together are `out`. `work` says how much there is to do
/// in all, as places times kernel steps.
///
/// Without the feature `parallel` there is one part and one thread. With it, a large batch is shared
/// among the threads of the rayon pool that the caller runs in: the global one, whose size the
/// environment variable `RAYON_NUM_THREADS` sets, or the caller's own through
/// `rayon::ThreadPool::install`.
pub fn in_parts<T: Send>(out: &mut [T], work: usize, fill: impl Fn(usize, &mut [T]) + Sync) {
    #[cfg(feature = "parallel")]
    {
        use rayon::prelude::*;
        let parts = (work / WORTH_A_THREAD).min(4 * rayon::current_num_threads());
        if parts > 1 && rayon::current_num_threads() > 1 {
            // whole registers and cache lines
            let length = out.len().div_ceil(parts).next_multiple_of(64);
            out.par_chunks_mut(length).enumerate().for_each(|(place, part)| fill(place * length, part));
            return;
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
