package clinic.stimshelf.desk;

import java.util.List;

/** Something in a room below that the desk must see before everything else. */
public interface DeskAlert {

  /**
   * A matter that cannot wait.
   *
   * @param what it is about, without the name
   * @param why what stands behind it
   */
  record Alert(
      String name, String chartNumber, String what, String why, String href, String action) {}

  /** What there is at a location, the most urgent first. */
  List<Alert> alerts(Long locationId);
}
