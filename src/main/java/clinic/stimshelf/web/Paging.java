package clinic.stimshelf.web;

import jakarta.ws.rs.DefaultValue;
import jakarta.ws.rs.QueryParam;
import java.util.List;

/** Which page of a list is wanted: {@code ?page=} from 0, {@code &size=} from 1 to 200 (50). */
public class Paging {
  static final int MOST = 200;

  @QueryParam("page")
  @DefaultValue("0")
  String page = "0";

  @QueryParam("size")
  @DefaultValue("50")
  String size = "50";

  public static Paging of(int page, int size) {
    Paging paging = new Paging();
    paging.page = String.valueOf(page);
    paging.size = String.valueOf(size);
    return paging;
  }

  /** Page number from 0. */
  public int page() {
    return whole("page", page, 0, 1_000_000);
  }

  /** Entries a page, 1 to 200. */
  public int size() {
    return whole("size", size, 1, MOST);
  }

  /** How many entries stand before this page. */
  public int offset() {
    return Math.multiplyExact(page(), size());
  }

  /** Cuts a page out of a list that is held whole. */
  public <T> Page<T> cut(List<T> all) {
    int from = Math.min(offset(), all.size());
    int to = Math.min(from + size(), all.size());
    return new Page<>(List.copyOf(all.subList(from, to)), page(), size(), all.size());
  }

  private static int whole(String field, String text, int least, int most) {
    try {
      int number = Integer.parseInt(text.trim());
      if (number >= least && number <= most) {
        return number;
      }
    } catch (NumberFormatException notANumber) {
      // said below, together with what is allowed
    }
    throw new Malformed(
        field, "“" + text + "” is not a whole number from " + least + " to " + most + ".");
  }
}
