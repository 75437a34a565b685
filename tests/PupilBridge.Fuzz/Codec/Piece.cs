using System.Buffers;
using PupilBridge.Fuzz.Engine;

namespace PupilBridge.Fuzz.Codec;

/// <summary>One buffer of a chain.</summary>
internal sealed class Piece : ReadOnlySequenceSegment<byte>
{
    /// <summary>Cuts bytes into a chain of buffers, some of them empty.</summary>
    public static ReadOnlySequence<byte> Chain(ReadOnlyMemory<byte> bytes, Dice dice)
    {
        var most = dice.Any<int>([2, 16, 120, 700]);
        Piece? first = null;
        Piece? last = null;
        for (var at = 0; at < bytes.Length || first is null; )
        {
            var length = Math.Min(bytes.Length - at, dice.Below(most));
            var piece = new Piece { Memory = bytes.Slice(at, length), RunningIndex = at };
            if (last is not null)
                last.Next = piece;
            first ??= piece;
            last = piece;
            at += length;
        }

        return new ReadOnlySequence<byte>(first, 0, last!, last!.Memory.Length);
    }
}
