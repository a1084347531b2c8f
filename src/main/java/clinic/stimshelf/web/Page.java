package clinic.stimshelf.web;

import java.util.List;
import java.util.function.Function;

/**
 * One page of a list.
 *
 * @param page counted from 0
 * @param size how many a page holds
 * @param total how many there are in all
 */
public record Page<T>(List<T> items, int page, int size, long total) {

  public <R> Page<R> map(Function<? super T, ? extends R> change) {
    return new Page<>(items.stream().<R>map(change).toList(), page, size, total);
  }

  public boolean hasNext() {
    return (page + 1L) * size < total;
  }
}
