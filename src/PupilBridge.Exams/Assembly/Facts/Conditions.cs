using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Exams.Assembly.Facts;

/// <summary>What the room light was said to be from one moment on. It is never inferred.</summary>
/// <param name="When">Since when.</param>
/// <param name="Light">Bright or dim; null where a sensor's reading is neither, or where nobody can know any more.</param>
/// <param name="Millilux">The sensor's reading, where there is one.</param>
/// <param name="SaidBy">Who said it.</param>
/// <param name="Entry">The person's entry, where a person said it.</param>
public sealed record LightSaid(Moment When, RoomLight? Light, long? Millilux, ConditionSource SaidBy, EntryId? Entry);

/// <summary>Where the patient was said to look from one moment on.</summary>
/// <param name="When">Since when.</param>
/// <param name="Fixation">Far or near; null where nobody can know any more.</param>
/// <param name="SaidBy">Who said it.</param>
/// <param name="Entry">The person's entry, where a person said it.</param>
public sealed record FixationSaid(Moment When, Fixation? Fixation, ConditionSource SaidBy, EntryId? Entry);

/// <summary>Who said what the light or the fixation is.</summary>
public enum ConditionSource
{
    /// <summary>The instrument.</summary>
    Instrument = 1,

    /// <summary>A person.</summary>
    Person = 2,

    /// <summary>Nobody: events were lost, and what held before may hold no longer.</summary>
    Lost = 3,
}

/// <summary>The dial was moved, or the sequence went on by itself.</summary>
/// <param name="When">When.</param>
/// <param name="Mode">The mode from then on.</param>
/// <param name="Block">The block from then on.</param>
/// <param name="BySelf">Whether the sequence went on by itself.</param>
public sealed record DialMove(Moment When, InstrumentMode Mode, Block Block, bool BySelf);

/// <summary>The viewing lens was swung in or out.</summary>
/// <param name="When">When.</param>
/// <param name="IsIn">Whether it is in the examiner's view from then on.</param>
public sealed record LensMove(Moment When, bool IsIn);
