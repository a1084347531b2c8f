package clinic.stimshelf.web;

import java.util.List;

/** The body of every refused call under /api (RFC 9457, media type application/problem+json). */
public record Problem(String type, String title, int status, String detail, List<Fault> errors) {
  public static final String MEDIA_TYPE = "application/problem+json;charset=UTF-8";

  /** One reason: the field it is about (or null) and what to do. */
  public record Fault(String field, String message) {}

  public static Problem of(int status, String title, String detail, List<Reason> reasons) {
    return new Problem(
        "about:blank",
        title,
        status,
        detail,
        reasons.stream().map(reason -> new Fault(reason.field(), reason.words())).toList());
  }
}
