package clinic.stimshelf.program;

/**
 * One kind of pads in a program.
 *
 * @param code of the pad type
 * @param perSession pads worn at once
 */
public record PadLine(String code, int perSession) {}
