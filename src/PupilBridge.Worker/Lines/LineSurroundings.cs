using Microsoft.Extensions.Logging;
using PupilBridge.Instrument;
using PupilBridge.Worker.Keeping;
using PupilBridge.Worker.Live;
using PupilBridge.Worker.Options;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Worker.Lines;

/// <summary>What all lines of one service share.</summary>
/// <param name="Options">What a person set.</param>
/// <param name="Host">The number of this installation.</param>
/// <param name="Keeper">The way into the journal.</param>
/// <param name="Claims">Which line has which instrument.</param>
/// <param name="Board">What is shown.</param>
/// <param name="Clock">The moment.</param>
/// <param name="Logger">Where the service tells what it does.</param>
internal sealed record LineSurroundings(
    BridgeOptions Options,
    HostId Host,
    JournalKeeper Keeper,
    InstrumentClaims Claims,
    LiveBoard Board,
    MomentClock Clock,
    ILogger Logger
);
