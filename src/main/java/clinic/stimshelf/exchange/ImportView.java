package clinic.stimshelf.exchange;

import java.time.Instant;
import java.util.List;

/**
 * An import as a page or a script sees it.
 *
 * @param now the kind of file being read, {@code null} before the first and after the last
 * @param faults everything that is wrong
 */
public record ImportView(
    String id,
    RunState state,
    String startedBy,
    Instant startedAt,
    String now,
    long rowsDone,
    long rowsOf,
    List<Brought> files,
    List<Fault> faults) {}
