namespace PupilBridge.Conformance.Checks;

/// <summary>All checks, in the order of the report.</summary>
public static class CheckCatalogue
{
    internal static readonly Check LinesWhole = new(
        "lines.whole",
        "4",
        "Every line has its check, its bytes and its length right."
    );
    internal static readonly Check LinesGrammar = new(
        "lines.grammar",
        "5",
        "Every line is of a known type with fields in range."
    );
    internal static readonly Check LineSteady = new(
        "line.steady",
        "3",
        "What was examined comes out the same each time: nothing is lost on the way."
    );
    internal static readonly Check LinePrompt = new(
        "line.prompt",
        "10",
        "Heartbeats and answers arrive within 150 ms of when they could."
    );
    internal static readonly Check ReceivePieces = new(
        "receive.pieces",
        "4",
        "A line that arrives in pieces is taken when it is whole."
    );
    internal static readonly Check IdentitySerial = new(
        "identity.serial",
        "6.1",
        "The serial number is the one that stands on the instrument."
    );
    internal static readonly Check ScaleEnds = new(
        "scale.ends",
        "6.1",
        "The scales reach both ends that SCALE declares, and go no further."
    );
    internal static readonly Check RoomRate = new("kinds.room-rate", "6.2", "ROOM comes at most ten times a second.");
    internal static readonly Check ReceiveBadCheck = new(
        "receive.bad-check",
        "4",
        "A line with a wrong check is dropped without an answer."
    );
    internal static readonly Check ReceiveCut = new(
        "receive.cut",
        "4",
        "A cut line and a blank line are dropped; the next line counts."
    );
    internal static readonly Check ReceiveTooLong = new(
        "receive.too-long",
        "4",
        "A run that is too long is dropped up to its LF; the next line counts."
    );
    internal static readonly Check ReceiveCarriageReturn = new(
        "receive.carriage-return",
        "4",
        "One CR before the LF is passed over."
    );
    internal static readonly Check ReceiveBadField = new(
        "receive.bad-field",
        "17",
        "A line with a bad field is dropped; the next line counts."
    );
    internal static readonly Check ReceiveUnknownType = new(
        "receive.unknown-type",
        "17",
        "A line of an unknown type is passed over."
    );
    internal static readonly Check ReceiveFurtherFields = new(
        "receive.further-fields",
        "17",
        "Further fields are passed over."
    );
    internal static readonly Check IdentityComplete = new(
        "identity.complete",
        "6.1",
        "The identity is whole and in order, with no events in it."
    );
    internal static readonly Check IdentityBeat = new(
        "identity.beat",
        "8",
        "After the identity a BEAT comes before the events."
    );
    internal static readonly Check VersionNone = new(
        "version.none",
        "8",
        "A greeting without a common version is answered NOVERSION."
    );
    internal static readonly Check EventsOrder = new("events.order", "9", "Events come in order and without holes.");
    internal static readonly Check EventsFirst = new(
        "events.first",
        "6.2",
        "The first event of a boot is MODE with DIAL."
    );
    internal static readonly Check EventsSame = new("events.same", "6.2", "The bytes of an event line never change.");
    internal static readonly Check EventsBoot = new(
        "events.boot",
        "13",
        "Events and heartbeats carry the boot of the identity."
    );
    internal static readonly Check ResendAsked = new("resend.asked", "10", "RESEND from N is answered from N on.");
    internal static readonly Check ResendPastLast = new(
        "resend.past-last",
        "10",
        "RESEND from beyond the last event sends none."
    );
    internal static readonly Check ResendUnasked = new(
        "resend.unasked",
        "10",
        "What is not acknowledged comes again after 2 s."
    );
    internal static readonly Check ResendForgotten = new(
        "resend.forgotten",
        "10",
        "RESEND of what is no longer kept is answered BEAT, then from the oldest kept."
    );
    internal static readonly Check AckMoves = new("ack.moves", "9", "An ACK moves the oldest kept on.");
    internal static readonly Check AckBeyond = new("ack.beyond", "9", "An ACK beyond the last event changes nothing.");
    internal static readonly Check AckOtherBoot = new("ack.other-boot", "9", "An ACK of another boot changes nothing.");
    internal static readonly Check AckForeign = new(
        "ack.foreign",
        "9",
        "An ACK of a host that does not hold the instrument changes nothing."
    );
    internal static readonly Check HoldRefused = new("hold.refused", "14", "WHO of another host is answered HELD.");
    internal static readonly Check HoldForeign = new(
        "hold.foreign",
        "14",
        "ACK and CMD of another host are answered HELD, and not carried out."
    );
    internal static readonly Check HoldRate = new("hold.rate", "14", "HELD goes out at most once a second.");
    internal static readonly Check HoldTaken = new(
        "hold.taken",
        "14",
        "TAKE is granted, and the host before is told HELD."
    );
    internal static readonly Check HoldSilent = new(
        "hold.silent",
        "14",
        "To a holder that was silent for 10 s no events are sent."
    );
    internal static readonly Check HoldLapses = new(
        "hold.lapses",
        "14",
        "After 10 s of silence WHO of another host is granted."
    );
    internal static readonly Check CommandUnknown = new(
        "command.unknown",
        "15",
        "An unknown command is answered UNKNOWN."
    );
    internal static readonly Check CommandRefused = new(
        "command.refused",
        "15",
        "Fields out of range are answered REFUSED, a command without its ability UNKNOWN."
    );
    internal static readonly Check CommandOnce = new(
        "command.once",
        "15",
        "A repeated number is answered by the same DONE and not carried out again."
    );
    internal static readonly Check BeatEachSecond = new("beat.each-second", "6.4", "A BEAT comes once a second.");
    internal static readonly Check BeatTrue = new(
        "beat.true",
        "6.4",
        "BEAT tells the last event, and the battery if there is one."
    );
    internal static readonly Check TickForward = new("tick.forward", "2", "Ticks never run backwards.");
    internal static readonly Check TickRate = new("tick.rate", "18", "The clock is good to 500 ppm.");
    internal static readonly Check PosRate = new(
        "pos.rate",
        "6.3",
        "POS comes at most 25 times a second for each scale."
    );
    internal static readonly Check PosWaits = new("pos.waits", "6.3", "POS never comes while events wait.");
    internal static readonly Check OverflowGap = new(
        "overflow.gap",
        "11",
        "What does not fit in the memory of 512 is told by GAP."
    );
    internal static readonly Check KindsReadable = new(
        "kinds.readable",
        "6.2",
        "Each event is of a known kind with fields in range."
    );
    internal static readonly Check KindsDeclared = new(
        "kinds.declared",
        "6.1",
        "No event of an ability that the identity does not claim."
    );
    internal static readonly Check KindMode = new("kinds.mode", "6.2", "MODE when the dial is turned.");
    internal static readonly Check KindRest = new("kinds.rest", "6.2", "REST when a scale comes to rest.");
    internal static readonly Check KindLamp = new("kinds.lamp", "6.2", "LAMP when a lamp goes on or off.");
    internal static readonly Check KindOutput = new(
        "kinds.output",
        "6.2",
        "OUTPUT once for each lamp that is on for 500 ms, between its ON and OFF (ability G)."
    );
    internal static readonly Check KindEdge = new("kinds.edge", "6.2", "EDGE when a mark key is pressed (ability M).");
    internal static readonly Check KindRoom = new("kinds.room", "6.2", "ROOM as the abilities L and S say.");
    internal static readonly Check KindFix = new("kinds.fix", "6.2", "FIX when the target changes (ability F).");
    internal static readonly Check KindLens = new("kinds.lens", "6.2", "LENS when the lens moves (ability V).");
    internal static readonly Check Endurance = new(
        "endurance",
        "16",
        "No 3 s without a well-formed line, and no new boot, in all the run."
    );

    /// <summary>Every check.</summary>
    public static IReadOnlyList<Check> All { get; } =
    [
        LinesWhole,
        LinesGrammar,
        LineSteady,
        LinePrompt,
        ReceiveBadCheck,
        ReceiveCut,
        ReceivePieces,
        ReceiveTooLong,
        ReceiveCarriageReturn,
        ReceiveBadField,
        ReceiveUnknownType,
        ReceiveFurtherFields,
        IdentityComplete,
        IdentityBeat,
        IdentitySerial,
        VersionNone,
        EventsOrder,
        EventsFirst,
        EventsSame,
        EventsBoot,
        ResendAsked,
        ResendPastLast,
        ResendUnasked,
        ResendForgotten,
        AckMoves,
        AckBeyond,
        AckOtherBoot,
        AckForeign,
        HoldRefused,
        HoldForeign,
        HoldRate,
        HoldTaken,
        HoldSilent,
        HoldLapses,
        CommandUnknown,
        CommandRefused,
        CommandOnce,
        BeatEachSecond,
        BeatTrue,
        TickForward,
        TickRate,
        PosRate,
        PosWaits,
        ScaleEnds,
        OverflowGap,
        KindsReadable,
        KindsDeclared,
        KindMode,
        KindRest,
        KindLamp,
        KindOutput,
        KindEdge,
        KindRoom,
        RoomRate,
        KindFix,
        KindLens,
        Endurance,
    ];
}
