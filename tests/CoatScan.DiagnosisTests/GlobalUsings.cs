global using CoatScan.Diagnosis;
