package clinic.stimshelf.people;

/**
 * Something of another room that belongs on a patient's page: a program, a loan, an appointment.
 *
 * @param label what kind of thing it is, such as "Program"
 * @param words one line about it
 * @param href its page
 * @param state word of its state, as the state tag draws it
 */
public record Matter(String label, String words, String href, String state) {}
