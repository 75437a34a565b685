using PupilBridge.Safekeeping.Envelopes;

namespace PupilBridge.Safekeeping.Tests.Support;

/// <summary>Seals as it should, and cancels the work when one piece more than wanted is begun.</summary>
/// <param name="afterPieces">How many pieces are completed first.</param>
/// <param name="stop">Ends the work.</param>
internal sealed class BreakingEnvelope(int afterPieces, CancellationTokenSource stop) : Envelope
{
    private readonly PassPhraseEnvelope real = House.Words();
    private int begun;

    public override string Name => real.Name;

    public override string Suffix => real.Suffix;

    public override bool IsEncrypted => true;

    public override bool CanOpen => true;

    public override Stream Seal(Stream to)
    {
        if (++begun > afterPieces)
        {
            stop.Cancel();
        }

        return real.Seal(to);
    }

    public override Stream Open(Stream from) => real.Open(from);
}
