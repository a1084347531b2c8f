package clinic.stimshelf.web;

/** A part of Settings. A room declares one as a bean, and it stands on the Settings page. */
public interface SettingsPart {

  /** Where it stands: smaller comes first. */
  int order();

  String label();

  /** What can be done there, as a sentence. */
  String words();

  /** Its page. */
  String href();
}
