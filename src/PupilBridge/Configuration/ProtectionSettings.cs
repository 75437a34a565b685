using PupilBridge.Keys.Files;

namespace PupilBridge.Configuration;

/// <summary>How files are protected against who finds a disk.</summary>
/// <param name="Encrypt">Whether what the service writes from now on is encrypted.</param>
/// <param name="KeyFile">Where the master keys lie.</param>
internal sealed record ProtectionSettings(bool Encrypt, MasterKeyFile KeyFile);
