package clinic.stimshelf.web;

import jakarta.ws.rs.core.EntityTag;

/** The version that a caller read, as {@code If-Match} carries it. */
public final class IfMatch {
  private IfMatch() {}

  /**
   * @param header as sent; may be {@code null}
   * @return the version, or {@code null} where any will do
   * @throws Malformed if it is not a version in quotes
   */
  public static Integer version(String header) {
    if (header == null || header.isBlank() || header.strip().equals("*")) {
      return null;
    }
    try {
      return Integer.valueOf(header.strip().replaceFirst("^W/", "").replace("\"", ""));
    } catch (NumberFormatException notAVersion) {
      throw new Malformed(
          "If-Match", "“" + header + "” is not a version such as \"3\", as an answer's ETag says.");
    }
  }

  /**
   * @param what the thing as a sentence begins with it
   * @throws Stale if the caller read another version than there is now
   */
  public static void require(Integer read, int now, String what) {
    if (read != null && read != now) {
      throw new Stale(
          what + " was changed by somebody else a moment ago. Look at it again, then change it.");
    }
  }

  public static EntityTag tag(int version) {
    return new EntityTag(String.valueOf(version));
  }
}
