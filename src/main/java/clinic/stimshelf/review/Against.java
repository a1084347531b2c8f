package clinic.stimshelf.review;

import clinic.stimshelf.web.Malformed;
import java.util.Arrays;
import java.util.Locale;
import java.util.stream.Collectors;

/** What a period is compared with. */
public enum Against {
  PLAN("what was planned"),
  BEFORE("the time before"),
  YEAR_AGO("the same days a year ago");

  private final String words;

  Against(String words) {
    this.words = words;
  }

  public String words() {
    return words;
  }

  public String word() {
    return name().toLowerCase(Locale.ROOT).replace('_', '-');
  }

  /** The earlier period, or {@code null} against the plan. */
  Period earlier(Period now) {
    return switch (this) {
      case PLAN -> null;
      case BEFORE -> now.before();
      case YEAR_AGO -> now.yearAgo();
    };
  }

  /**
   * @param word {@code null} or blank means the plan
   * @throws Malformed if there is no such word
   */
  static Against of(String word) {
    if (word == null || word.isBlank()) {
      return PLAN;
    }
    return Arrays.stream(values())
        .filter(value -> value.word().equals(word.strip()))
        .findFirst()
        .orElseThrow(
            () ->
                new Malformed(
                    "against",
                    "“"
                        + word
                        + "” is none of "
                        + Arrays.stream(values())
                            .map(Against::word)
                            .collect(Collectors.joining(", "))
                        + "."));
  }
}
