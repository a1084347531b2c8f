package clinic.stimshelf.pads;

import java.time.LocalDate;

/** Which lot a number stands for. */
public record LotFactsView(
    Long id, String code, String number, LocalDate expiresOn, LotState state) {}
