using PupilBridge.Fuzz.Engine;
using PupilBridge.Fuzz.Seeds;
using PupilBridge.Instrument;
using PupilBridge.Worker.Sessions;

namespace PupilBridge.Fuzz.Link;

/// <summary>
/// The host's side of a line as it runs in the service: framer, decoder, link and session, under whatever an instrument may say, in reads of
/// any size, while entries become durable sooner or later. An input is a <see cref="Script"/>: <c>!t</c> time, <c>!d</c> so many entries become
/// durable, <c>!c</c> the port is closed and opened, <c>!x</c> a command is wished for, <c>!k</c> somebody takes over, <c>!s</c> reads of that size.
/// </summary>
internal sealed class HostLinkTarget : IFuzzTarget
{
    private const int MostSendsForALine = 8;
    private static readonly SessionSettings Settings = new(new HostId(0x00C0FFEE), "memory", 115_200, WaitingLimit: 64);
    private static readonly DateTimeOffset Start = new(2026, 3, 2, 9, 0, 0, TimeSpan.Zero);

    public IReadOnlyList<byte[]> Seeds { get; } = [.. HostScripts.All, .. FailedBefore.Of("host-link")];

    public int MaxBytes => 8192;

    public long Units { get; private set; }

    public int Mutate(ReadOnlySpan<byte> from, ReadOnlySpan<byte> other, Span<byte> into, ref Dice dice)
    {
        var length = StreamMutator.Change(from, other, into, ref dice);
        return dice.OneIn(3) ? ScriptMutator.PutIn(into, length, "tttdddcxks", ref dice) : length;
    }

    public ulong Run(ReadOnlySpan<byte> input)
    {
        var world = new HostWorld();
        var at = TimeSpan.FromSeconds(1);
        var session = Opened(world, at);
        var (size, commands, lines) = (0, 0u, 0);
        var script = new Script(input);
        while (script.Next())
        {
            var now = new Moment(at, Start + at);
            world.Sent = 0;
            switch (script.Act)
            {
                case 't':
                    at += Pass(session, world, at, script.Number(100));
                    break;
                case 'd':
                    world.MakeDurable(script.Number(1000), session, now);
                    Few(world, 4, script.Line);
                    break;
                case 'c':
                    session.OnClosed("The input says so.", now);
                    session = Opened(world, at);
                    break;
                case 'x':
                    session.OnCommandWished(++commands, InstrumentCommand.Off, null, now);
                    break;
                case 'k':
                    session.OnTakeOverWished(now);
                    break;
                case 's':
                    size = script.Number(0);
                    break;
                default:
                    lines++;
                    Hear(session, world, script.Line, size, now);
                    break;
            }

            if (world.LineEnded)
            {
                session.OnClosed("The session says so.", now);
                session = Opened(world, at);
            }
        }

        Units += Math.Max(lines, 1);
        return Behaviour(session, world, lines);
    }

    private static InstrumentSession Opened(HostWorld world, TimeSpan at)
    {
        world.LineEnded = false;
        var session = new InstrumentSession(Settings, world);
        session.OnOpened(new Moment(at, Start + at));
        return session;
    }

    private static void Hear(InstrumentSession session, HostWorld world, ReadOnlySpan<byte> line, int size, Moment now)
    {
        var whole = line;
        world.Note(line);
        for (size = size < 1 ? line.Length : size; !line.IsEmpty; line = line[Math.Min(size, line.Length)..])
            session.OnBytes(line[..Math.Min(size, line.Length)], now);
        Few(world, MostSendsForALine, whole);
    }

    private static TimeSpan Pass(InstrumentSession session, HostWorld world, TimeSpan at, int milliseconds)
    {
        var (from, until) = (at, at + TimeSpan.FromMilliseconds(milliseconds));
        for (var steps = 0; session.NextDue is { } due && due <= until && !world.LineEnded; steps++)
        {
            at = due > at ? due : at;
            session.OnTimePassed(new Moment(at, Start + at));
            if (steps > 20 + (milliseconds / 50))
                throw new Finding(
                    "The session wants to be woken again and again",
                    $"{steps} times in {milliseconds} ms"
                );
        }

        Few(world, 8 + (milliseconds / 200), "!t"u8);
        return until - from;
    }

    private static void Few(HostWorld world, int most, ReadOnlySpan<byte> why)
    {
        if (world.Sent > most)
            throw new Finding("The host says too much at once", $"{world.Sent} lines to {Readable.Of(why)}");
    }

    private static ulong Behaviour(InstrumentSession session, HostWorld world, int lines)
    {
        var signature = new Signature();
        var c = session.Counters;
        signature.Add((int)world.Seen);
        signature.Add((int)(world.Seen >> 32));
        signature.Add((session.IsConnected ? 1 : 0) + (session.Serial is null ? 0 : 2));
        var few = c.BadCheck + c.TooLong + c.Unreadable + c.UnknownTypes;
        signature.Add(few > 0 ? 1 : 0);
        foreach (
            var count in new[]
            {
                c.UnknownEvents,
                c.Duplicates,
                c.BeforeTheirTurn,
                c.Conflicts,
                c.ResendsAsked,
                world.Given,
            }
        )
            signature.Bucket(count);
        signature.Bucket(lines / 16);
        return signature.Bits;
    }
}
